-- As in SQLite.
create table scheduled_tasks (
  task_name            text not null,
  task_instance        text not null references book(id) on delete cascade,
  task_data            bytea,
  execution_time       timestamptz not null,
  picked               boolean not null,
  picked_by            text,
  last_success         timestamptz,
  last_failure         timestamptz,
  consecutive_failures integer,
  last_heartbeat       timestamptz,
  version              bigint not null,
  primary key (task_name, task_instance)
);
create index scheduled_tasks_due on scheduled_tasks (execution_time);
create index scheduled_tasks_heard on scheduled_tasks (last_heartbeat);
create index scheduled_tasks_book on scheduled_tasks (task_instance);

-- What waited stands in the row as it stood in the queue there was.
insert into scheduled_tasks (task_name, task_instance, execution_time, picked, version)
  select 'read', j.book, to_timestamp(min(j.due_at) / 1000.0), false, 1 from job j join book b on b.id = j.book
  where j.state in ('waiting', 'running') and b.discarded_at is null
  group by j.book order by min(j.turn), min(j.seq);

drop index job_open;
alter table job drop column worker;
alter table job drop column beat_at;
alter table job drop column turn;
create index job_open on job (state, book);
