-- A second reading of a book's music, and which of its parts is this chair's.
create table second_reading (
  book  text primary key references book(id) on delete cascade,
  name  text not null,
  file  text not null,
  part  text not null,
  parts text not null
) strict;
