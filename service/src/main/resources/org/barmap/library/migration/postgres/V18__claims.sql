-- As in SQLite.
alter table job add column worker text;
alter table job add column beat_at bigint not null default 0;
alter table job add column turn bigint not null default 0;
create index job_open on job (state, turn, seq);
