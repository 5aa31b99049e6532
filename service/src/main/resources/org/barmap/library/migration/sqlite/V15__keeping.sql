-- What a person let go and is not off the disk yet, BOOK or BOOK/FILE: a kill in between does not keep it.
create table doomed (file text primary key) strict;
-- What holds for the whole folder: who has it open, for how many days the bin keeps a book.
create table keeping (name text primary key, value text not null) strict;
-- How a picture was when it was kept; the hash is null where it was kept by an older program.
create table picture (
  book   text not null references book(id) on delete cascade,
  file   text not null,
  bytes  integer not null,
  sha256 text,
  primary key (book, file)
) strict;
