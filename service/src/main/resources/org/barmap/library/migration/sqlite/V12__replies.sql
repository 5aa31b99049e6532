-- Edits that a browser may send more than once, because it never heard that they were made.
create table reply (
  key      text primary key,
  request  text not null,
  revision integer not null,
  made_at  integer not null
) strict;
create index reply_made_at on reply (made_at);
