-- The findings nobody has answered, worked out when the draft was kept; null when it was kept before.
alter table book add column draft_open text;
