package org.barmap.extract;

import java.util.Iterator;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;

/**
 * The pages of a book, the next one being made upright while one is read: two page images are in
 * memory at a time, not more.
 */
final class PagesAhead implements Iterator<PageResult>, AutoCloseable {

  private final PageSource source;
  private Optional<CompletableFuture<PageResult>> ahead = Optional.empty();

  PagesAhead(PageSource source) {
    this.source = source;
  }

  @Override
  public boolean hasNext() {
    return ahead.isPresent() || source.hasNext();
  }

  @Override
  public PageResult next() {
    Optional<CompletableFuture<PageResult>> made = ahead;
    ahead = Optional.empty();
    PageResult page = made.map(PagesAhead::finished).orElseGet(source::next);
    ahead =
        source.hasNext()
            ? Optional.of(CompletableFuture.supplyAsync(source::next))
            : Optional.empty();
    return page;
  }

  private static PageResult finished(CompletableFuture<PageResult> page) {
    try {
      return page.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw e;
    }
  }

  /** Closes the page being made, which nobody will take, and the source. */
  @Override
  public void close() {
    try {
      ahead
          .map(PagesAhead::finished)
          .ifPresent(
              page -> {
                if (page instanceof PageResult.Loaded loaded) {
                  loaded.page().close();
                }
              });
    } finally {
      source.close();
    }
  }
}
