package org.barmap.bench.trust;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.barmap.bench.trust.Asked.Answer;
import org.barmap.bench.trust.Asked.Sent;
import org.barmap.cli.run.Home;
import tools.jackson.databind.JsonNode;

/**
 * Readers and editors at one service, each with the pauses of a person, while others listen to what
 * happens. The service has a process of its own; whoever asks shares its processors.
 */
public final class Load {

  private static final int READERS = 200;
  private static final int EDITORS = 50;
  private static final int LISTENERS = 500;
  private static final int BOOKS = 10;

  /** A person looks at a page for a while; a corrector clicks more slowly than this. */
  private static final int SHORTEST_PAUSE_MILLIS = 1_000;

  private static final int LONGEST_PAUSE_MILLIS = 3_000;
  private static final int WIDTH = 1_200;

  private final Tally tally = new Tally();
  private final Map<String, Timed> times = new ConcurrentHashMap<>();
  private final AtomicBoolean over = new AtomicBoolean();
  private final AtomicInteger listening = new AtomicInteger();
  private final AtomicLong heard = new AtomicLong();
  private final Served served;
  private final List<Shelved> books = new ArrayList<>();

  private Load(List<String> options) throws IOException {
    served = new Served(options);
  }

  /** A book with the ids of its pages and bars. */
  private record Shelved(String id, List<String> pages, List<String> bars) {}

  /**
   * Runs it.
   *
   * @param options of {@code barmap serve}, for another store
   */
  public static Map<String, Object> run(int seconds, List<String> options) throws IOException {
    Load load = new Load(options);
    try (Served ends = load.served) {
      return load.figures(seconds);
    }
  }

  private Map<String, Object> figures(int seconds) throws IOException {
    for (int i = 0; i < BOOKS; i++) {
      books.add(shelved(i));
    }
    for (int i = 0; i < LISTENERS; i++) {
      listen(books.get(i % BOOKS).id());
    }
    List<Thread> people = new ArrayList<>();
    for (int i = 0; i < READERS + EDITORS; i++) {
      boolean edits = i < EDITORS;
      Random random = new Random(i);
      Shelved book = books.get(i % BOOKS);
      people.add(new Thread(() -> live(book, random, edits), "person"));
    }
    people.forEach(Thread::start);
    Pause.of(TimeUnit.SECONDS.toMillis(seconds));
    over.set(true);
    for (Thread person : people) {
      try {
        person.join();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IOException("interrupted", e);
      }
    }
    return told(seconds);
  }

  private Map<String, Object> told(int seconds) {
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("seconds", seconds);
    figures.put("readers", READERS);
    figures.put("editors", EDITORS);
    figures.put("listeners", listening.get());
    figures.put("eventsHeard", heard.get());
    figures.put("errors", tally.of("errors"));
    new TreeMap<>(times).forEach((what, timed) -> figures.put(what, timed.told()));
    tally.counts().forEach(figures::putIfAbsent);
    figures.put("wrong", tally.wrong());
    return figures;
  }

  /** Two pages of the demo book. */
  private Shelved shelved(int number) throws IOException {
    String book = served.book("Load " + number);
    List<Sent> files = new ArrayList<>();
    for (String name : List.of("page-06.png", "page-08.png")) {
      Path file = Home.demoBook().resolve(name);
      files.add(new Sent(name, Files.readAllBytes(file)));
    }
    served.asked().upload("/api/books/" + book + "/pages", files);
    served.awaitRead(book);
    JsonNode map = served.asked().get("/api/books/" + book + "/map").json();
    List<String> pages = new ArrayList<>();
    List<String> bars = new ArrayList<>();
    map.path("pages").forEach(p -> pages.add(p.path("id").asString("")));
    map.path("bars").forEach(b -> bars.add(b.path("id").asString("")));
    return new Shelved(book, pages, bars);
  }

  private void listen(String book) {
    served
        .asked()
        .client()
        .sendAsync(
            served
                .asked()
                .to("/api/books/" + book + "/events")
                .header("Accept", "text/event-stream")
                .build(),
            HttpResponse.BodyHandlers.fromLineSubscriber(
                new Lines(listening::incrementAndGet, line -> heard(line))))
        .whenComplete(
            (answer, e) -> {
              if (!over.get()) {
                tally.wrong("errors", "a listener was shut out: " + answer + " " + e);
              }
            });
  }

  private void heard(String line) {
    if (line.startsWith("event: map") || line.startsWith("event: plan")) {
      heard.incrementAndGet();
    }
  }

  private void live(Shelved book, Random random, boolean edits) {
    try {
      Pause.of(random.nextInt(LONGEST_PAUSE_MILLIS));
      while (!over.get()) {
        if (edits) {
          edit(book, random);
        } else {
          read(book, random);
        }
        Pause.of(
            SHORTEST_PAUSE_MILLIS + random.nextInt(LONGEST_PAUSE_MILLIS - SHORTEST_PAUSE_MILLIS));
      }
    } catch (IOException | RuntimeException e) {
      tally.wrong("errors", e.toString());
    }
  }

  private void read(Shelved book, Random random) throws IOException {
    String path = "/api/books/" + book.id();
    int page = random.nextInt(book.pages().size());
    switch (random.nextInt(4)) {
      case 0 -> get("map of a page", path + "/map?pages=" + (page + 1));
      case 1 -> get("plan", path + "/plan?without=changes");
      default ->
          get("picture", path + "/pages/" + book.pages().get(page) + "/image?width=" + WIDTH);
    }
  }

  private void get(String what, String path) throws IOException {
    long begun = System.nanoTime();
    Answer answer = served.asked().get(path);
    timed(what, begun, answer);
  }

  private void timed(String what, long begun, Answer answer) {
    times.computeIfAbsent(what, w -> new Timed()).add(System.nanoTime() - begun);
    if (answer.status() == 412) {
      // another one was quicker: the desk loads the map again and sends it once more
      tally.count("stale");
    } else if (!answer.isDone()) {
      tally.wrong("errors", what + ": " + answer.status() + " " + answer.text());
    }
  }

  /** Sets the meter of a bar, as the desk does. */
  private void edit(Shelved book, Random random) throws IOException {
    String path = "/api/books/" + book.id();
    String bar = book.bars().get(random.nextInt(book.bars().size()));
    String body =
        "{\"kind\":\"set-meter\",\"bar\":\"%s\",\"beats\":%d,\"unit\":4}"
            .formatted(bar, 1 + random.nextInt(9));
    long revision = served.asked().get(path + "/map?pages=1").revision();
    long begun = System.nanoTime();
    Answer answer =
        served.asked().change("POST", path + "/corrections?pages=changed", revision, body);
    timed("edit", begun, answer);
  }
}
