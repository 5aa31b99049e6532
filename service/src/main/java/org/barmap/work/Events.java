package org.barmap.work;

import java.security.SecureRandom;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.library.live.Signals;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.SerializationFeature;

/**
 * Tells whoever listens what happens to a book, in this process and in others on its store. What
 * was told lately is kept for who was away; of who is where only what is now counts, so that is
 * not.
 */
public final class Events {

  /** What somebody missed can't be told any more: everything is to be asked for again. */
  public static final String RESET = "reset";

  /** What other processes are told by. */
  private static final String TOPIC = "event";

  private static final Set<String> PASSING = Set.of("here");

  /** Of all books together; a reading of some hundred pages tells as many things. */
  private static final int MOST_KEPT = 2_000;

  private static final Pattern ID = Pattern.compile("([0-9a-z]{1,16})-(\\d{1,18})");

  private final Map<Object, Subscription> listeners = new ConcurrentHashMap<>();
  private final Deque<Kept> kept = new ArrayDeque<>();

  /** Ids are of this run: the next one knows nothing of what was told in it. */
  private final String run = Long.toString(new SecureRandom().nextLong(1L << 50), 36);

  private long latest;

  /** The last one that is not kept any more. */
  private long dropped;

  private final Signals signals;

  /** Makes a hub of this process alone; nobody listens to it yet. */
  public Events() {
    this(Signals.ALONE);
  }

  /** Makes a hub that tells other processes and hears them; nobody listens to it yet. */
  public Events(Signals signals) {
    this.signals = signals;
    signals.hear(TOPIC, this::heard);
    signals.hear(Signals.GAP, text -> reset());
  }

  /** Hears what happens to one book. */
  @FunctionalInterface
  public interface Listener {

    /**
     * Takes an event.
     *
     * @param name job, page, map, plan, edition, share or here
     * @param data to be sent as JSON
     */
    void hear(String name, Object data);
  }

  /** Hears what happens to one book, and can be told later what it missed. */
  public interface Follower {

    /**
     * Takes an event, the next one in order.
     *
     * @param id by which to go on after it; empty for what is not told again
     */
    void hear(Optional<String> id, String name, Object data);

    /**
     * Takes up the line, after what was missed and before what happens from now on.
     *
     * @param id by which to go on from here
     */
    void begin(String id);
  }

  private record Subscription(String book, Follower follower) {}

  private record Kept(long number, String book, String name, Object data) {}

  /** Listens to a book until the returned handle is run. */
  public Runnable listen(String book, Listener listener) {
    return follow(
        book,
        Optional.empty(),
        new Follower() {
          @Override
          public void hear(Optional<String> id, String name, Object data) {
            listener.hear(name, data);
          }

          @Override
          public void begin(String id) {
            // it asks for nothing that was
          }
        });
  }

  /**
   * Follows a book until the returned handle is run.
   *
   * @param since id of the event heard last; what came after it is told first, or {@link #RESET}
   *     when that is not known any more. Empty for who begins
   */
  public synchronized Runnable follow(String book, Optional<String> since, Follower follower) {
    if (since.isPresent()) {
      Optional<List<Kept>> missed = since(book, since.get());
      missed.ifPresent(
          all -> all.forEach(k -> follower.hear(Optional.of(id(k.number)), k.name, k.data)));
      if (missed.isEmpty()) {
        follower.hear(Optional.of(id(latest)), RESET, Map.of());
      }
    }
    follower.begin(id(latest));
    Object key = new Object();
    listeners.put(key, new Subscription(book, follower));
    return () -> listeners.remove(key);
  }

  private String id(long number) {
    return run + "-" + number;
  }

  /** What was told of a book after an event; empty when that is not known any more. */
  private Optional<List<Kept>> since(String book, String id) {
    Matcher parts = ID.matcher(id);
    if (!parts.matches() || !parts.group(1).equals(run)) {
      return Optional.empty();
    }
    long number = Long.parseLong(parts.group(2));
    if (number < dropped || number > latest) {
      return Optional.empty();
    }
    return Optional.of(
        kept.stream().filter(k -> k.number > number && k.book.equals(book)).toList());
  }

  /** What other processes are told of an event. */
  private record Wire(String book, String name, Object data) {}

  /** Tells the listeners of a book; each of a process hears everything in the same order. */
  public void tell(String book, String name, Object data) {
    tellHere(book, name, data);
    if (signals.isShared() && !PASSING.contains(name)) {
      String wire =
          BarMapJson.mapper()
              .writer()
              .without(SerializationFeature.INDENT_OUTPUT)
              .writeValueAsString(new Wire(book, name, data));
      signals.send(TOPIC, wire);
    }
  }

  private void heard(String text) {
    JsonNode wire = BarMapJson.mapper().readTree(text);
    tellHere(wire.path("book").asString(""), wire.path("name").asString(""), wire.path("data"));
  }

  /** Something may have been missed that other processes told. */
  private synchronized void reset() {
    latest++;
    dropped = latest;
    kept.clear();
    listeners.values().forEach(s -> s.follower.hear(Optional.of(id(latest)), RESET, Map.of()));
  }

  private synchronized void tellHere(String book, String name, Object data) {
    Optional<String> id =
        PASSING.contains(name) ? Optional.empty() : Optional.of(keep(book, name, data));
    for (Subscription s : listeners.values()) {
      if (s.book.equals(book)) {
        s.follower.hear(id, name, data);
      }
    }
  }

  private String keep(String book, String name, Object data) {
    latest++;
    kept.add(new Kept(latest, book, name, data));
    if (kept.size() > MOST_KEPT) {
      dropped = kept.remove().number;
    }
    return id(latest);
  }

  /** Tells that the map of a book is of a new revision. */
  public void mapChanged(String book, long revision) {
    tell(book, "map", Map.of("revision", revision));
  }

  /** Tells that the settings of a book are of a new revision. */
  public void settingsChanged(String book, long revision) {
    tell(book, "settings", Map.of("revision", revision));
  }

  /** Returns how many listen. */
  public int listening() {
    return listeners.size();
  }
}
