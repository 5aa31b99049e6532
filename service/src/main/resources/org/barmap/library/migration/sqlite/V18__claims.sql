-- Which worker is at a job, and when it last said so (milliseconds since 1970): one that says nothing any more is gone.
alter table job add column worker text;
alter table job add column beat_at integer not null default 0;
-- How often it had its turn, counted so that a new job begins beside those that are under way.
alter table job add column turn integer not null default 0;
create index job_open on job (state, turn, seq);
