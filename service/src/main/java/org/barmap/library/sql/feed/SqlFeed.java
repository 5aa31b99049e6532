package org.barmap.library.sql.feed;

import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.barmap.edit.draft.Draft;
import org.barmap.library.Versioned;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Editions;
import org.barmap.library.feed.Feed;
import org.barmap.library.feed.Hooks;
import org.barmap.library.feed.Outbox;
import org.barmap.library.feed.Told;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;

/** What books are followed by, in a database; what makes steps tells it of them. */
public final class SqlFeed implements Feed {

  /** What is needed of the store that the books are in. */
  public interface Shelf {

    /** Takes a book's draft out of the store; empty when there is no such book on the shelf. */
    Optional<Versioned<Draft>> draft(Handle h, String book);

    /** Changes a book, all of it or nothing; whoever changes the same book waits. */
    <T> T edit(String book, HandleCallback<T, RuntimeException> work);

    /** Makes others wait who ask for the same name, until the transaction of a handle is over. */
    void hold(Handle h, String name);
  }

  private final SqlEditions editions;
  private final SqlHooks hooks;
  private final SqlOutbox outbox;
  private final List<Listener> listeners = new CopyOnWriteArrayList<>();

  /** Makes it for a store. */
  public SqlFeed(Jdbi jdbi, Clock clock, Shelf shelf) {
    editions = new SqlEditions(jdbi, clock, shelf, this::made);
    outbox = new SqlOutbox(jdbi, clock, shelf, () -> tell(Listener::queued));
    hooks = new SqlHooks(jdbi, clock, outbox);
  }

  /**
   * Takes note of a step on a book's map, in its transaction and after everything else of it: who
   * listens is told, and a book that is checked now and was not before gets an edition.
   *
   * @param now after the step
   * @param who who made it; may be empty
   */
  public void stepped(Handle h, String book, Versioned<Draft> now, String who) {
    outbox.tell(h, new SqlOutbox.News(book, Told.CHANGED, Optional.empty(), now.revision()));
    boolean checked = SqlEditions.unchecked(h, book, now.value()) == 0;
    boolean turned =
        h.createUpdate("update book set checked = :checked where id = :id and checked <> :checked")
                .bind("id", book)
                .bind("checked", checked ? 1 : 0)
                .execute()
            == 1;
    if (checked && turned) {
      editions.make(h, book, now, who);
    }
  }

  /**
   * Turns off hooks of single books: the program that made them let everybody do so who had a key
   * of such a book, and nothing says who did. The owner turns on what is theirs.
   *
   * @return how many
   */
  public int doubtHooks(Handle h) {
    return SqlHooks.doubt(h);
  }

  /** Takes note of a step that changes the plan and not the map, in its transaction. */
  public void planned(Handle h, String book, long revision) {
    outbox.tell(h, new SqlOutbox.News(book, Told.PLAN_CHANGED, Optional.empty(), revision));
  }

  /** Tells of an edition. */
  private void made(Handle h, String book, Edition made) {
    outbox.tell(
        h, new SqlOutbox.News(book, Told.CHECKED, Optional.of(made.number()), made.revision()));
    h.afterCommit(() -> tell(listener -> listener.edition(book, made)));
  }

  private void tell(Consumer<Listener> what) {
    listeners.forEach(what);
  }

  @Override
  public Editions editions() {
    return editions;
  }

  @Override
  public Hooks hooks() {
    return hooks;
  }

  @Override
  public Outbox outbox() {
    return outbox;
  }

  @Override
  public Runnable listen(Listener listener) {
    listeners.add(listener);
    return () -> listeners.remove(listener);
  }
}
