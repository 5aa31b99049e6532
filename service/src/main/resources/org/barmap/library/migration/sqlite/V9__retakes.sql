-- A page that was photographed again is put aside with its picture for as long as that can be taken back.
alter table page add column aside integer not null default 0;

create table retake (
  step     text primary key references correction(id) on delete cascade,
  book     text not null references book(id) on delete cascade,
  old_page text not null references page(id) on delete cascade,
  new_page text not null references page(id) on delete cascade,
  place    integer not null,
  before   text not null,
  after    text not null
) strict;
create index retake_of_old on retake (old_page);
create index retake_of_new on retake (new_page);
