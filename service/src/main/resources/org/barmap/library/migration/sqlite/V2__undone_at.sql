-- When a step was taken back, so that the changes of any moment can be told.
alter table change_step add column undone_at text;
