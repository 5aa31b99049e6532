-- Which reading of a page it is: what was computed from an older one is not stored.
alter table page add column reading_version integer not null default 0;
