-- When a step was made by a time that never goes back, whatever the machine's clock does; null in older steps.
alter table change_step add column ordered_at text;
-- The latest such time.
insert into keeping (name, value)
  select 'clock', latest from (select max(max(made_at), coalesce(max(undone_at), '')) as latest from change_step)
  where latest is not null and latest <> '';
