package org.barmap.bench.trust;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.barmap.bench.trust.Asked.Sent;
import tools.jackson.databind.JsonNode;

/**
 * Kills a service, and what reads for it, again and again while it is written to. After each start
 * everything that was acknowledged has to be there, and every map whole.
 */
public final class Torture {

  private static final int BOOKS = 3;
  private static final int SHORTEST_MILLIS = 1_500;
  private static final int LONGEST_MILLIS = 6_000;

  private static final int LOOKED_SECONDS = 60;

  /** Of ten kills so many are of the service, the others of what reads for it. */
  private static final int OF_THE_SERVICE = 7;

  /** Of ten kills, where reading is done by processes of their own. */
  private static final int OF_THE_LISTENER = 3;

  private static final int OF_A_WORKER = 7;
  private static final int OF_ALL = 8;

  private final Random random;

  /** Whether this start's reader was killed: a page that ends two of them is given up. */
  private boolean spared;

  /** As many looks there are when every writer has looked after the last start. */
  private long looks;

  private final Gate gate = new Gate();
  private final Tally tally = new Tally();
  private final Served served;
  private final Optional<Workers> workers;
  private final Map<String, byte[]> pictures = Strips.pictures();
  private final List<BookCheck> checks = new ArrayList<>();

  private Torture(List<String> options, Shared shared, long seed) throws IOException {
    random = new Random(seed);
    List<String> all = new ArrayList<>(options);
    shared.database().ifPresent(d -> all.add("--database=" + d));
    boolean apart = shared.database().isPresent() && shared.workers() > 0;
    List<String> own = new ArrayList<>(all);
    if (apart) {
      own.add("--only-web");
    }
    served = new Served(own);
    workers =
        apart
            ? Optional.of(
                new Workers(shared.workers(), new Random(seed + 1), () -> served.worker(all)))
            : Optional.empty();
  }

  /**
   * What several processes share.
   *
   * @param database where it is, empty at first; empty for a store of the service's own
   * @param workers how many processes read pages; 0 where the service does
   */
  public record Shared(Optional<String> database, int workers) {

    /** A service by itself. */
    public static final Shared NOTHING = new Shared(Optional.empty(), 0);
  }

  /**
   * Runs it.
   *
   * @param options of {@code barmap serve}, for another store
   * @return figures; "lost", "broken", "server errors", "unanswered" and "driver" are 0 when all is
   *     well, and "wrong" says what was not
   */
  public static Map<String, Object> run(int seconds, long seed, List<String> options, Shared shared)
      throws IOException {
    Torture torture = new Torture(options, shared, seed);
    try (Served ends = torture.served) {
      return torture.figures(seconds, seed);
    } finally {
      torture.workers.ifPresent(Workers::close);
    }
  }

  private Map<String, Object> figures(int seconds, long seed) throws IOException {
    Map<String, String> looks = looks();
    for (int i = 0; i < BOOKS; i++) {
      String title = "Torture " + i;
      checks.add(new BookCheck(served, tally, served.book(title), new BookLedger(title), looks));
    }
    List<Thread> writers = new ArrayList<>();
    for (BookCheck check : checks) {
      BookWriter writer = new BookWriter(served, gate, tally, pictures, check, random.nextLong());
      writer.begin();
      writers.add(new Thread(writer, "writer"));
    }
    for (BookCheck check : checks) {
      served.awaitRead(check.book());
    }
    writers.forEach(Thread::start);
    long begun = System.nanoTime();
    kill(begun + TimeUnit.SECONDS.toNanos(seconds));
    gate.end();
    for (Thread writer : writers) {
      join(writer);
    }
    for (BookCheck check : checks) {
      check.look(true);
    }
    lookAtStore();
    return told(seconds, seed);
  }

  static void join(Thread writer) throws IOException {
    try {
      writer.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  /** Reads every picture by itself, in quiet. */
  private Map<String, String> looks() throws IOException {
    String book = served.book("By themselves");
    List<Sent> files = new ArrayList<>();
    pictures.forEach((name, bytes) -> files.add(new Sent(name, bytes)));
    served.asked().upload("/api/books/" + book + "/pages", files);
    served.awaitRead(book);
    Map<String, String> looks = new TreeMap<>();
    for (JsonNode page : served.asked().get("/api/books/" + book + "/map").json().path("pages")) {
      looks.put(page.path("source").asString(""), BookCheck.look(page));
    }
    looks.values().removeIf(String::isEmpty);
    if (!looks.keySet().containsAll(pictures.keySet())
        || Set.copyOf(looks.values()).size() < looks.size()) {
      throw new IOException("not all of the pictures can be told by their lines: " + looks);
    }
    return looks;
  }

  private void kill(long until) throws IOException {
    while (System.nanoTime() < until) {
      awaitLooks();
      Pause.of(SHORTEST_MILLIS + random.nextInt(LONGEST_MILLIS - SHORTEST_MILLIS));
      int what = random.nextInt(10);
      if (workers.isPresent()) {
        killApart(workers.get(), what);
      } else if (what < OF_THE_SERVICE || spared) {
        boolean politely = what == 0;
        whileShut(() -> served.again(politely));
        spared = false;
        tally.count(politely ? "told to end" : "services killed");
      } else {
        served
            .reader()
            .ifPresent(
                reader -> {
                  reader.destroyForcibly();
                  spared = true;
                  tally.count("readers killed");
                });
      }
    }
  }

  /** Kills the one that listens, one that reads, what reads for that one, or all at once. */
  private void killApart(Workers apart, int what) throws IOException {
    if (what < OF_THE_LISTENER) {
      boolean politely = what == 0;
      whileShut(() -> served.again(politely));
      tally.count(politely ? "told to end" : "services killed");
    } else if (what < OF_A_WORKER) {
      alive(apart.killOne());
      tally.count("workers killed");
    } else if (what < OF_ALL) {
      whileShut(
          () -> {
            served.end(false);
            alive(apart.killAll());
            apart.startAll();
            served.start();
          });
      tally.count("all killed at once");
    } else if (apart.killReader()) {
      tally.count("readers killed");
    }
  }

  private void alive(boolean lived) throws IOException {
    if (!lived) {
      tally.wrong("driver", "a worker had ended by itself: " + served.said());
    }
  }

  /** What is done while nobody writes. */
  private interface Step {
    void take() throws IOException;
  }

  private void whileShut(Step step) throws IOException {
    gate.shut();
    step.take();
    looks = tally.of("looked") + BOOKS;
    gate.open();
  }

  /** A service that is killed before anybody looked proves nothing of the kill before. */
  private void awaitLooks() throws IOException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(LOOKED_SECONDS);
    while (tally.of("looked") < looks && System.nanoTime() < end) {
      Pause.of(SHORTEST_MILLIS / 10);
    }
  }

  private void lookAtStore() throws IOException {
    JsonNode kept = served.asked().get("/api/kept").json();
    if (!kept.path("missing").isEmpty()) {
      tally.wrong("broken", "pictures missing: " + kept.path("missing"));
    }
  }

  private Map<String, Object> told(int seconds, long seed) {
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("seconds", seconds);
    figures.put("seed", seed);
    Map<String, Long> counts = tally.counts();
    long acknowledged =
        counts.entrySet().stream()
            .filter(e -> e.getKey().startsWith("acknowledged"))
            .mapToLong(Map.Entry::getValue)
            .sum();
    figures.put("acknowledged", acknowledged);
    for (String zero : List.of("lost", "broken", "server errors", "unanswered", "driver")) {
      figures.put(zero, tally.of(zero));
    }
    counts.forEach(figures::putIfAbsent);
    figures.put("wrong", tally.wrong());
    if (!tally.wrong().isEmpty()) {
      figures.put("kept", served.keep());
    }
    return figures;
  }
}
