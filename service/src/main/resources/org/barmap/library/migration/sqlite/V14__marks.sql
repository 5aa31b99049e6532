-- The marks a player has written into the book and not erased yet, as JSON.
alter table book add column marks text not null default '[]';
