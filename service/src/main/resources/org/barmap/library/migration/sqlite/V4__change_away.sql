-- From when to when a step was taken back that was made again later.
create table change_away (
  step    integer not null references change_step(seq) on delete cascade,
  from_at text not null,
  to_at   text not null
) strict;
create index change_away_of_step on change_away (step);
