-- The map of a book as it was when it was checked, gzipped JSON; it never changes. step and steps say which
-- corrections were made then: the latest one, and how many.
create table edition (
  book     text not null references book(id) on delete cascade,
  number   integer not null,
  made_at  text not null,
  who      text not null,
  revision integer not null,
  step     integer not null,
  steps    integer not null,
  pages    integer not null,
  bars     integer not null,
  sha256   text not null,
  bytes    integer not null,
  document blob not null,
  primary key (book, number)
) strict;
-- Whether every page of a book was checked after the last step: the step that makes it so makes an edition.
alter table book add column checked integer not null default 0;
update book set checked = 1
  where verified_pages > 0
    and verified_pages >= (select count(*) from page where page.book = book.id and page.aside = 0);

-- Who is told of what happens to a book, or to every book where book is null; moments are milliseconds since 1970.
create table hook (
  id            text primary key,
  book          text references book(id) on delete cascade,
  address       text not null,
  secret        text not null,
  events        text not null,
  made_at       text not null,
  off           text,
  failing_since integer,
  due_at        integer not null default 0
) strict;
create index hook_of_book on hook (book);

-- What is to be told, written in the step that it tells of.
create table delivery (
  seq      integer primary key autoincrement,
  id       text not null unique,
  hook     text not null references hook(id) on delete cascade,
  book     text references book(id) on delete cascade,
  event    text not null,
  edition  integer,
  revision integer not null,
  made_at  text not null,
  state    text not null check (state in ('waiting', 'sending', 'sent', 'dead')),
  tries    integer not null default 0,
  answer   text not null default '',
  tried_at text
) strict;
create index delivery_of_hook on delivery (hook, state, seq);
create index delivery_of_book on delivery (book);
