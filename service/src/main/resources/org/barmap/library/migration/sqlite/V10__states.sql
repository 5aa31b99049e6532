-- every step asks for those that were taken back; their state stands behind long texts, so no row is read for it
create index correction_by_state on correction (book, state, seq);
create index change_step_by_state on change_step (book, state, seq);
