package org.barmap.bench.trust;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Sends broken files and broken requests to a service, several at once: pictures and documents with
 * bytes changed by chance, and requests to every route. It has to answer each, to live, to write no
 * trace into an answer, and to have its memory back.
 */
public final class Fuzz {

  /** So many are sent before memory is looked at, or one of five: what is loaded once is then. */
  private static final int WARM = 500;

  private static final int WARM_OF = 5;

  /** Memory is looked at after each of so many parts. */
  private static final int PARTS = 4;

  private static final int GROWN = 12;

  private final Tally tally = new Tally();
  private final Served served;
  private final FuzzSender.Shared shared;
  private final AtomicInteger next = new AtomicInteger();
  private final int senders;

  private Fuzz(long seed, int senders, List<String> options) throws IOException {
    this.senders = senders;
    served = new Served(options);
    BrokenRequests requests = new BrokenRequests(served.asked().get("/openapi.json").json());
    shared = new FuzzSender.Shared(served, tally, new BrokenFiles(), requests, seed);
  }

  /**
   * Runs it.
   *
   * @param cases files, and as many requests; full uploads of twenty are sent
   * @param seconds no more are sent after so many
   * @param senders how many send at once
   * @param options of {@code barmap serve}, for another store
   */
  public static Map<String, Object> run(
      int cases, int seconds, long seed, int senders, List<String> options) throws IOException {
    Fuzz fuzz = new Fuzz(seed, senders, options);
    try (Served ends = fuzz.served) {
      return fuzz.figures(cases, seconds);
    }
  }

  private Map<String, Object> figures(int cases, int most) throws IOException {
    long pid = served.pid();
    send(Math.min(cases, Math.max(WARM, cases / WARM_OF)), most);
    final long warmed = tally.of("files");
    final List<ProcessHandle> readers = served.readers();
    List<Held> held = new ArrayList<>(List.of(Held.of(served)));
    final Map<String, Long> classes = Held.classes(served);
    long begun = System.nanoTime();
    // a leak goes on growing, what is loaded once does not
    for (int part = 1; part <= PARTS && served.isAlive(); part++) {
      send(cases * part / PARTS - cases * (part - 1) / PARTS, most / PARTS);
      if (served.isAlive()) {
        held.add(Held.of(served));
      }
    }
    long seconds = TimeUnit.NANOSECONDS.toSeconds(System.nanoTime() - begun);
    boolean alive = served.isAlive() && served.pid() == pid;
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("files", tally.of("files"));
    figures.put("requests", tally.of("requests"));
    figures.put("toWarmUp", warmed);
    figures.put("routes", shared.requests().routes());
    figures.put("senders", senders);
    figures.put("readers", readers.size());
    figures.put("seconds", seconds);
    figures.put("crashes", alive ? 0 : 1);
    figures.put("readersEnded", readers.stream().filter(r -> !r.isAlive()).count());
    figures.put("traces", tally.of("traces"));
    figures.put("tracesPrinted", traces(served.said()));
    figures.put("tracesLogged", traces(served.logged()));
    figures.put("serverErrors", tally.of("server errors"));
    figures.put("unanswered", tally.of("unanswered"));
    figures.put("held", held.stream().map(Held::told).toList());
    figures.put("grewBytes", alive ? grown(classes, Held.classes(served)) : Map.of());
    tally.counts().forEach(figures::putIfAbsent);
    figures.put("wrong", tally.wrong());
    return figures;
  }

  /** The classes whose objects take most more than they did. */
  private static Map<String, Long> grown(Map<String, Long> before, Map<String, Long> after) {
    Map<String, Long> grown = new LinkedHashMap<>();
    after.entrySet().stream()
        .map(e -> Map.entry(e.getKey(), e.getValue() - before.getOrDefault(e.getKey(), 0L)))
        .sorted(Map.Entry.<String, Long>comparingByValue().reversed())
        .limit(GROWN)
        .forEach(e -> grown.put(e.getKey(), e.getValue()));
    return grown;
  }

  private static long traces(String printed) {
    return printed.lines().filter(l -> l.contains("\tat ") || l.contains("\\tat ")).count();
  }

  private void send(int cases, int seconds) throws IOException {
    long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(seconds);
    int end = next.get() + (cases + FuzzSender.AT_ONCE - 1) / FuzzSender.AT_ONCE;
    List<Thread> threads = new ArrayList<>();
    for (int i = 0; i < senders; i++) {
      threads.add(new Thread(new FuzzSender(shared, next, end, until), "sender"));
    }
    threads.forEach(Thread::start);
    for (Thread thread : threads) {
      Torture.join(thread);
    }
    // each of them took a number after the last one
    next.set(end);
  }
}
