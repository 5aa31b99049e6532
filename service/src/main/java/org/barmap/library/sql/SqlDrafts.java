package org.barmap.library.sql;

import java.time.Clock;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.barmap.edit.Editing;
import org.barmap.edit.Outcome;
import org.barmap.edit.draft.Change;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.ReadLine;
import org.barmap.edit.merge.Retaken;
import org.barmap.library.Drafts;
import org.barmap.library.History;
import org.barmap.library.HistoryEntry;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.library.keep.Weighed;
import org.barmap.library.sql.feed.SqlFeed;
import org.barmap.map.BarMap;
import org.jdbi.v3.core.Handle;

/** Drafts in a database: the present map whole, every correction with its change. */
final class SqlDrafts implements Drafts {

  private static final Log LOG = new Log("correction");

  private final Store store;
  private final Clock clock;

  /** Bar entries of all drafts that are kept in memory: some ten books of 144 pages. */
  private static final long MOST_BARS = 90_000;

  /** What a draft takes without any bar, in bar entries. */
  private static final long LEAST = 20;

  /**
   * Drafts taken out of the store lately, the one used last at the end; used only while their
   * revision is the one on disk.
   */
  private final Weighed<Versioned<Draft>> lately = new Weighed<>(MOST_BARS, SqlDrafts::weight);

  /** A few books may share one: they then wait for each other. */
  private static final int TAKING = 64;

  /** What is held while a book's draft is taken out; never inside a transaction. */
  private final List<Object> taking = Stream.generate(Object::new).limit(TAKING).toList();

  private final Removal removal;
  private final SqlFeed feed;

  private final SqlReplies replies;

  SqlDrafts(Store store, Clock clock, Removal removal, SqlFeed feed, SqlReplies replies) {
    this.store = store;
    this.replies = replies;
    this.clock = clock;
    this.removal = removal;
    removal.tell(lately::forget);
    this.feed = feed;
  }

  @Override
  public Optional<Versioned<Draft>> find(String book) {
    // a page asks for several things of a book at once: it is taken out of the store for all of
    // them
    synchronized (taking.get(Math.floorMod(book.hashCode(), TAKING))) {
      return store.view(h -> find(h, book));
    }
  }

  private Optional<Versioned<Draft>> find(Handle h, String book) {
    Optional<Long> revision =
        h.createQuery("select draft_revision from book where id = :id and discarded_at is null")
            .bind("id", book)
            .mapTo(Long.class)
            .findOne();
    if (revision.isEmpty()) {
      return Optional.empty();
    }
    Optional<Versioned<Draft>> known =
        lately.find(book).filter(k -> k.revision() == revision.get());
    if (known.isPresent()) {
      return known;
    }
    Optional<Versioned<Draft>> loaded = DraftPages.load(h, book);
    loaded.ifPresent(d -> remember(book, d));
    return loaded;
  }

  private void remember(String book, Versioned<Draft> draft) {
    lately.change(
        book,
        known -> known.filter(k -> k.revision() >= draft.revision()).or(() -> Optional.of(draft)));
  }

  private static long weight(Versioned<Draft> draft) {
    BarMap map = draft.value().map();
    return LEAST + map.bars().size() + map.pages().size() + map.findings().size();
  }

  /** A step on a draft, and how its line in the history is written. */
  private interface Kept {
    Outcome take(Handle h, Draft draft);

    HistoryEntry write(Handle h, Outcome.Done done);
  }

  private Saved<Draft> save(String book, long revision, Kept step) {
    return along(
        book,
        (h, now) -> {
          if (now.revision() != revision) {
            return new Saved.Stale<>(now.revision());
          }
          Outcome outcome = step.take(h, now.value());
          if (outcome instanceof Outcome.Refused refused) {
            return new Saved.Refused<>(refused.reasons());
          }
          Outcome.Done done = (Outcome.Done) outcome;
          Versioned<Draft> next = DraftPages.keep(h, book, now, done.draft());
          return new Saved.Done<>(next, step.write(h, done));
        });
  }

  @Override
  public Saved<Draft> correct(String book, long revision, String who, Correction correction) {
    return said(book, revision, who, correction, draft -> Editing.correct(draft, correction));
  }

  @Override
  public Saved<Draft> readLine(String book, long revision, String who, ReadLine line) {
    return said(book, revision, who, line.drawn(), draft -> Editing.readLine(draft, line));
  }

  /** A step that a person said. */
  private Saved<Draft> said(
      String book,
      long revision,
      String who,
      Correction correction,
      Function<Draft, Outcome> taken) {
    Optional<Versioned<Draft>> seen = find(book);
    if (seen.isPresent() && seen.get().revision() > revision) {
      return new Saved.Stale<>(seen.get().revision());
    }
    // before the store is taken hold of: what others write waits for nothing that is worked out
    Optional<Outcome> worked =
        seen.filter(v -> v.revision() == revision).map(v -> taken.apply(v.value()));
    return save(
        book,
        revision,
        new Kept() {
          @Override
          public Outcome take(Handle h, Draft draft) {
            return worked
                .filter(w -> seen.filter(v -> v.value() == draft).isPresent())
                .orElseGet(() -> taken.apply(draft));
          }

          @Override
          public HistoryEntry write(Handle h, Outcome.Done done) {
            LOG.dropUndone(h, book);
            HistoryEntry entry =
                new HistoryEntry(Ids.make(), clock.instant(), who, done.text(), false);
            LOG.add(h, book, entry, kept(Json.correction(correction), done.change()));
            return entry;
          }
        });
  }

  /** What is kept of a step: what a person said, and the change it made. */
  private static Map<String, String> kept(String correction, Change change) {
    return Map.of("correction", correction, "change", Json.write(change));
  }

  @Override
  public Saved<Draft> undo(String book, long revision) {
    return step(book, revision, true);
  }

  @Override
  public Saved<Draft> redo(String book, long revision) {
    return step(book, revision, false);
  }

  private Saved<Draft> step(String book, long revision, boolean back) {
    return save(
        book,
        revision,
        new Kept() {
          private Optional<Log.Stored> line(Handle h) {
            return back ? LOG.latestDone(h, book) : LOG.firstUndone(h, book);
          }

          @Override
          public Outcome take(Handle h, Draft draft) {
            Optional<Log.Stored> line = line(h);
            if (line.isEmpty()) {
              return new Outcome.Refused(
                  List.of(back ? "There is nothing to take back" : "There is nothing to do again"));
            }
            Change change = Json.change(LOG.column(h, line.get().seq(), "change"));
            HistoryEntry entry = line.get().entry();
            Optional<Retakes.Retake> retake = Retakes.find(h, entry.id());
            Optional<Draft> from =
                retake.isEmpty() ? Optional.of(draft) : retake.get().swapped(draft, back);
            if (from.isEmpty()) {
              return new Outcome.Refused(
                  List.of("The page was read again since; this no longer fits"));
            }
            return back
                ? Editing.undo(from.get(), change, entry.text())
                : Editing.redo(from.get(), change, entry.text());
          }

          @Override
          public HistoryEntry write(Handle h, Outcome.Done done) {
            Log.Stored line = line(h).orElseThrow();
            LOG.mark(h, line.seq(), back ? "undone" : "done");
            HistoryEntry e = line.entry();
            Retakes.find(h, e.id()).ifPresent(r -> Retakes.swap(h, r, back));
            return new HistoryEntry(e.id(), e.when(), e.who(), e.text(), back);
          }
        });
  }

  @Override
  public History history(String book) {
    return store.view(h -> LOG.history(h, book));
  }

  /** A change of a draft along with other tables, in one transaction. */
  interface Along {

    /** Makes it, or says why not. */
    Saved<Draft> take(Handle h, Versioned<Draft> now);
  }

  /** Makes a change that stands in no history. */
  Saved<Draft> along(String book, Along step) {
    Set<String> gone = new HashSet<>();
    Saved<Draft> saved =
        store.edit(
            book,
            h -> {
              Optional<Versioned<Draft>> now = find(h, book);
              if (now.isEmpty()) {
                return new Saved.Refused<>(List.of("There is no such book"));
              }
              Saved<Draft> taken = step.take(h, now.get());
              gone.addAll(Retakes.dropped(h, book));
              if (taken instanceof Saved.Done<Draft> done) {
                if (done.now().revision() != now.get().revision()) {
                  feed.stepped(h, book, done.now(), done.entry().who());
                }
                replies.made(h, done.now().revision());
              }
              return taken;
            });
    if (!gone.isEmpty()) {
      removal.pages(gone);
    }
    if (saved instanceof Saved.Done<Draft> done) {
      remember(book, done.now());
    }
    return saved;
  }

  /** Stores a draft as the next revision; {@code text} says what was done. */
  Saved<Draft> next(Handle h, String book, Versioned<Draft> now, Draft draft, String text) {
    return unchanged(DraftPages.keep(h, book, now, draft), text);
  }

  /** A step that leaves the draft as it is. */
  Saved<Draft> unchanged(Versioned<Draft> now, String text) {
    return new Saved.Done<>(now, new HistoryEntry(Ids.make(), clock.instant(), "", text, false));
  }

  /**
   * A page photographed again, as a step of the history.
   *
   * @param before the draft without the page of the new picture
   * @param last whether that was the last page; else earlier steps can't be taken back any more
   */
  Saved<Draft> retaken(
      Handle h,
      String book,
      Versioned<Draft> now,
      Draft before,
      Retaken retaken,
      Retakes.Retake step,
      boolean last) {
    if (last) {
      LOG.dropUndone(h, book);
    } else {
      LOG.close(h, book);
    }
    String text = step.says(before, retaken);
    HistoryEntry entry = new HistoryEntry(Ids.make(), clock.instant(), "", text, false);
    LOG.add(h, book, entry, kept("{}", Change.between(before, retaken.draft())));
    Retakes.insert(h, book, entry.id(), step);
    Retakes.swap(h, step, false);
    return new Saved.Done<>(DraftPages.keep(h, book, now, retaken.draft()), entry);
  }

  /** The same along with its pages; earlier corrections can't be taken back any more. */
  Saved<Draft> repaged(Handle h, String book, Versioned<Draft> now, Draft draft, String text) {
    LOG.close(h, book);
    return next(h, book, now, draft, text);
  }
}
