-- Of two who set how a book's player turns, the second one is told.
alter table book add column settings_revision integer not null default 0;
