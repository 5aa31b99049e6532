package org.barmap.library.sql;

import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.library.Versioned;
import org.barmap.library.sql.feed.SqlFeed;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;

/** What the feed needs of the store. */
record FeedShelf(Store store) implements SqlFeed.Shelf {

  @Override
  public Optional<Versioned<Draft>> draft(Handle h, String book) {
    return DraftPages.load(h, book);
  }

  @Override
  public <T> T edit(String book, HandleCallback<T, RuntimeException> work) {
    return store.edit(book, work);
  }

  @Override
  public void hold(Handle h, String name) {
    store.hold(h, name);
  }
}
