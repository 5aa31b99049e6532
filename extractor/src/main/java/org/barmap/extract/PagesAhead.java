package org.barmap.extract;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.page.file.Limits;

/**
 * The pages of a book, the next one being made upright while one is read: two page images are in
 * memory at a time, not more. A page that takes too long is given up with the rest of its file; the
 * thread that makes it can't be stopped, so it is left alone.
 */
final class PagesAhead implements Iterator<PageResult>, AutoCloseable {

  private final List<Path> files;
  private final Duration most;
  private PageSource source;
  private int begun;
  private Optional<CompletableFuture<PageResult>> ahead = Optional.empty();

  PagesAhead(List<Path> files) {
    this(files, Limits.STANDARD.time());
  }

  PagesAhead(List<Path> files, Duration most) {
    this.files = files;
    this.most = most;
    this.source = new PageSource(files);
  }

  @Override
  public boolean hasNext() {
    return ahead.isPresent() || source.hasNext();
  }

  @Override
  public PageResult next() {
    CompletableFuture<PageResult> made = ahead.orElseGet(this::begin);
    ahead = Optional.empty();
    PageResult page = finished(made);
    ahead = source.hasNext() ? Optional.of(begin()) : Optional.empty();
    return page;
  }

  private CompletableFuture<PageResult> begin() {
    PageSource from = source;
    return CompletableFuture.supplyAsync(
        from::next,
        task -> {
          Thread thread = new Thread(task, "barmap-page");
          thread.setDaemon(true);
          thread.start();
        });
  }

  private PageResult finished(CompletableFuture<PageResult> page) {
    try {
      return page.get(most.toMillis(), TimeUnit.MILLISECONDS);
    } catch (TimeoutException e) {
      return givenUp();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private PageResult givenUp() {
    String name = source.source();
    begun += source.opened();
    source = new PageSource(files.subList(Math.min(begun, files.size()), files.size()));
    String text =
        name + ": a page takes too long to be opened and was given up; scan or export it again.";
    return new PageResult.Failed(
        name, Finding.ofPage(Severity.ERROR, Stage.FILE, 0, "too-slow", text));
  }

  /** Closes the page being made, which nobody will take, and the source. */
  @Override
  public void close() {
    try {
      ahead
          .map(this::finished)
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
