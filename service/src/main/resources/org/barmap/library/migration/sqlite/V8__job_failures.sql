-- How often a job failed, and from when on (milliseconds since 1970) it may be tried again.
alter table job add column failures integer not null default 0;
alter table job add column due_at integer not null default 0;
