-- The bars of a draft, page by page, so that a correction writes the pages it changes and not the book;
-- a book without rows here has its bars in draft_map still.
create table draft_page (
  book text not null references book(id) on delete cascade,
  page integer not null,
  bars text not null,
  primary key (book, page)
) strict;
