create table book (
  id               text primary key,
  title            text not null,
  part             text not null,
  created_at       text not null,
  discarded_at     text,
  settings         text,
  draft_revision   integer not null default 0,
  draft_map        text not null,
  draft_settled    text not null,
  bars             integer not null default 0,
  verified_pages   integer not null default 0,
  doubts           integer not null default 0,
  changes_revision integer not null default 0,
  changes          text not null default '[]'
) strict;

create table page (
  id        text primary key,
  book      text not null references book(id) on delete cascade,
  position  integer not null,
  source    text not null,
  picture   text not null,
  part      integer not null,
  width     integer not null,
  height    integer not null,
  state     text not null check (state in ('waiting', 'reading', 'read', 'failed')),
  attempts  integer not null default 0,
  finding   text,
  reading   text
) strict;
create index page_of_book on page (book, position);

create table correction (
  seq        integer primary key autoincrement,
  id         text not null unique,
  book       text not null references book(id) on delete cascade,
  made_at    text not null,
  who        text not null,
  text       text not null,
  correction text not null,
  change     text not null,
  state      text not null check (state in ('done', 'undone', 'kept', 'dropped'))
) strict;
create index correction_of_book on correction (book, seq);

create table change_step (
  seq      integer primary key autoincrement,
  id       text not null unique,
  book     text not null references book(id) on delete cascade,
  made_at  text not null,
  who      text not null,
  text     text not null,
  before   text not null,
  after    text not null,
  state    text not null check (state in ('done', 'undone', 'kept', 'dropped'))
) strict;
create index change_step_of_book on change_step (book, seq);

create table job (
  seq        integer primary key autoincrement,
  id         text not null unique,
  book       text not null references book(id) on delete cascade,
  state      text not null check (state in ('waiting', 'running', 'done', 'failed')),
  done       integer not null default 0,
  of         integer not null default 0,
  text       text not null,
  attempts   integer not null default 0,
  created_at text not null
) strict;
create index job_of_book on job (book, seq);

create table upload (
  seq  integer primary key autoincrement,
  id   text not null unique,
  job  text not null references job(id) on delete cascade,
  name text not null,
  file text not null,
  open integer not null default 1
) strict;
create index upload_of_job on upload (job, seq);
