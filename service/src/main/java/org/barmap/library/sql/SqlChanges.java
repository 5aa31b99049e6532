package org.barmap.library.sql;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.barmap.library.Changes;
import org.barmap.library.History;
import org.barmap.library.HistoryEntry;
import org.barmap.library.MergePatch;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.library.sql.feed.SqlFeed;
import org.barmap.map.rule.BookNumbers;
import org.jdbi.v3.core.Handle;
import tools.jackson.databind.node.ObjectNode;

/**
 * Show changes in a database: the present list whole, every step with the list before and after.
 */
record SqlChanges(Store store, Clock clock, SqlFeed feed, SqlReplies replies) implements Changes {

  private static final Log LOG = new Log("change_step");

  @Override
  public Optional<Versioned<List<ObjectNode>>> find(String book) {
    return store.view(h -> find(h, book));
  }

  private static Optional<Versioned<List<ObjectNode>>> find(Handle h, String book) {
    return h.createQuery(
            """
            select changes_revision, changes from book where id = :id and discarded_at is null
            """)
        .bind("id", book)
        .map(
            (row, context) ->
                new Versioned<>(
                    row.getLong("changes_revision"), Json.objects(row.getString("changes"))))
        .findOne();
  }

  @Override
  public List<ObjectNode> at(String book, Instant moment) {
    return store.view(
        h ->
            h
                .createQuery(
                    """
                    select seq, coalesce(ordered_at, made_at) as made, undone_at as undone, after
                    from change_step
                    where book = :book order by seq
                    """)
                .bind("book", book)
                .mapTo(Moment.class)
                .list()
                .stream()
                .filter(m -> !m.made.isAfter(moment))
                .filter(m -> m.undone.filter(u -> !u.isAfter(moment)).isEmpty())
                .filter(m -> !wasAway(h, m.seq, moment))
                .reduce((a, b) -> b)
                .map(m -> Json.objects(m.after))
                .orElse(List.of()));
  }

  /** Tells whether a step was taken back then and made again only later. */
  private static boolean wasAway(Handle h, long step, Instant moment) {
    return h.createQuery("select from_at, to_at from change_away where step = :step")
        .bind("step", step)
        .map(
            (row, context) ->
                !Instant.parse(row.getString("from_at")).isAfter(moment)
                    && Instant.parse(row.getString("to_at")).isAfter(moment))
        .list()
        .contains(true);
  }

  /** When a step was made and taken back, by a time that never goes back, and the list after it. */
  record Moment(long seq, Instant made, Optional<Instant> undone, String after) {}

  /** The list after a step, with its line for the history; empty when it can't be taken. */
  private record Changed(List<ObjectNode> after, String text) {}

  private Saved<List<ObjectNode>> save(
      String book, long revision, String who, Function<List<ObjectNode>, Optional<Changed>> step) {
    return store.edit(
        book,
        h -> {
          Optional<Versioned<List<ObjectNode>>> now = find(h, book);
          if (now.isEmpty()) {
            return new Saved.Refused<>(List.of("There is no such book"));
          }
          if (now.get().revision() != revision) {
            return new Saved.Stale<>(now.get().revision());
          }
          String before = Json.array(now.get().value());
          Optional<Changed> taken = step.apply(now.get().value());
          if (taken.isEmpty()) {
            return new Saved.Refused<>(List.of("There is no such change"));
          }
          LOG.dropUndone(h, book);
          HistoryEntry entry =
              new HistoryEntry(Ids.make(), clock.instant(), who, taken.get().text, false);
          String after = Json.array(taken.get().after);
          String order = Keys.later(store, h, clock).toString();
          LOG.add(h, book, entry, Map.of("before", before, "after", after, "ordered_at", order));
          return new Saved.Done<>(keep(h, book, revision, after), entry);
        });
  }

  private Versioned<List<ObjectNode>> keep(Handle h, String book, long revision, String after) {
    h.createUpdate(
            "update book set changes = :changes, changes_revision = :revision where id = :id")
        .bind("id", book)
        .bind("changes", after)
        .bind("revision", revision + 1)
        .execute();
    feed.planned(h, book, revision + 1);
    replies.made(h, revision + 1);
    return new Versioned<>(revision + 1, Json.objects(after));
  }

  @Override
  public Saved<List<ObjectNode>> take(String book, long revision, List<ObjectNode> changes) {
    return save(
        book,
        revision,
        "",
        list -> {
          List<ObjectNode> after = new ArrayList<>(list);
          for (ObjectNode change : changes) {
            String id = change.path("id").asString("");
            boolean fresh = !id.isEmpty() && at(after, id) < 0;
            after.add(change.deepCopy().put("id", fresh ? id : Ids.make()));
          }
          String many = changes.size() == 1 ? "1 change" : changes.size() + " changes";
          return Optional.of(new Changed(after, "Taken from a file: " + many));
        });
  }

  @Override
  public Saved<List<ObjectNode>> add(
      String book, long revision, String who, List<ObjectNode> changes) {
    List<ObjectNode> made = new ArrayList<>();
    for (ObjectNode change : changes) {
      ObjectNode one = change.deepCopy();
      one.put("id", Ids.make());
      one.put("when", clock.instant().toString());
      if (!who.isEmpty()) {
        one.put("who", who);
      }
      made.add(one);
    }
    String text = made.size() == 1 ? shortly(made.get(0)) : made.size() + " changes";
    return save(
        book,
        revision,
        who,
        list -> {
          List<ObjectNode> after = new ArrayList<>(list);
          after.addAll(made);
          return Optional.of(new Changed(after, "Added: " + text));
        });
  }

  @Override
  public Saved<List<ObjectNode>> patch(
      String book, long revision, String who, String id, ObjectNode values) {
    return save(
        book,
        revision,
        who,
        id,
        (list, at) -> {
          ObjectNode changed = MergePatch.over(list.get(at), values).put("id", id);
          list.set(at, changed);
          return "Changed: " + shortly(changed);
        });
  }

  @Override
  public Saved<List<ObjectNode>> remove(String book, long revision, String who, String id) {
    return save(
        book, revision, who, id, (list, at) -> "Removed: " + shortly(list.remove((int) at)));
  }

  /**
   * Saves a step that begins at a change there is.
   *
   * @param step alters a copy of the list, given where the change stands in it, and says what it
   *     did
   */
  private Saved<List<ObjectNode>> save(
      String book,
      long revision,
      String who,
      String id,
      BiFunction<List<ObjectNode>, Integer, String> step) {
    return save(
        book,
        revision,
        who,
        list -> {
          int at = at(list, id);
          if (at < 0) {
            return Optional.empty();
          }
          List<ObjectNode> after = new ArrayList<>(list);
          String text = step.apply(after, at);
          return Optional.of(new Changed(after, text));
        });
  }

  private static int at(List<ObjectNode> list, String id) {
    for (int i = 0; i < list.size(); i++) {
      if (list.get(i).path("id").asString("").equals(id)) {
        return i;
      }
    }
    return -1;
  }

  private static String shortly(ObjectNode change) {
    String number = change.path("number").asString("");
    String first = change.path("first").asString(change.path("after").asString(""));
    String last = change.path("last").asString("");
    return (number.isEmpty() ? "" : BookNumbers.spoken(number) + ", ")
        + change.path("kind").asString("")
        + (first.isEmpty() ? "" : " " + first)
        + (last.isEmpty() ? "" : " to " + last);
  }

  @Override
  public Saved<List<ObjectNode>> undo(String book, long revision) {
    return step(book, revision, true);
  }

  @Override
  public Saved<List<ObjectNode>> redo(String book, long revision) {
    return step(book, revision, false);
  }

  private Saved<List<ObjectNode>> step(String book, long revision, boolean back) {
    return store.edit(
        book,
        h -> {
          Optional<Versioned<List<ObjectNode>>> now = find(h, book);
          Optional<Log.Stored> line = back ? LOG.latestDone(h, book) : LOG.firstUndone(h, book);
          if (now.isEmpty() || line.isEmpty()) {
            return new Saved.Refused<>(
                List.of(back ? "There is nothing to take back" : "There is nothing to do again"));
          }
          if (now.get().revision() != revision) {
            return new Saved.Stale<>(now.get().revision());
          }
          LOG.mark(h, line.get().seq(), back ? "undone" : "done");
          String at = Keys.later(store, h, clock).toString();
          if (!back) {
            h.createUpdate(
                    """
                    insert into change_away (step, from_at, to_at)
                    select seq, undone_at, :at from change_step
                    where seq = :seq and undone_at is not null
                    """)
                .bind("at", at)
                .bind("seq", line.get().seq())
                .execute();
          }
          h.createUpdate("update change_step set undone_at = :at where seq = :seq")
              .bind("at", back ? at : null)
              .bind("seq", line.get().seq())
              .execute();
          String list = LOG.column(h, line.get().seq(), back ? "before" : "after");
          HistoryEntry e = line.get().entry();
          return new Saved.Done<>(
              keep(h, book, revision, list),
              new HistoryEntry(e.id(), e.when(), e.who(), e.text(), back));
        });
  }

  @Override
  public History history(String book) {
    return store.view(h -> LOG.history(h, book));
  }

  @Override
  public List<ObjectNode> written(String book) {
    return new WrittenMarks(store, replies).of(book);
  }

  @Override
  public List<ObjectNode> tick(String book, ObjectNode mark, boolean written) {
    return new WrittenMarks(store, replies).tick(book, mark, written);
  }
}
