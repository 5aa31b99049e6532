package org.barmap.cli.run;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.HttpURLConnection;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;

/**
 * Asks the service that was just started what the desk will ask of the newest book, and what some
 * corrections of it would change: the first steps of a person then find the book in memory and the
 * code compiled. Nothing is stored.
 */
public final class WarmUp {

  /** The compiler has the way of a correction ready after some twenty. */
  private static final int CHECKS = 24;

  /** Over a large book it ends sooner. */
  private static final long MOST_NANOS = 3_000_000_000L;

  private final Library library;
  private final String address;
  private final String key;
  private int answered;

  private WarmUp(Library library, String address, String key) {
    this.library = library;
    this.address = address;
    this.key = key;
  }

  /** Does it beside everything else. */
  public static void begin(Library library, String address, String key) {
    Thread thread = new Thread(() -> run(library, address, key), "barmap-warm-up");
    thread.setDaemon(true);
    thread.setPriority(Thread.MIN_PRIORITY);
    thread.start();
  }

  /**
   * Does it now.
   *
   * @param address of the service, with a slash at its end
   * @param key that opens it
   * @return how many requests were answered
   */
  public static int run(Library library, String address, String key) {
    WarmUp at = new WarmUp(library, address, key);
    try {
      for (BookCard book : library.books().all()) {
        if (book.bars() > 0) {
          at.ask(book.id());
          break;
        }
      }
    } catch (IOException | RuntimeException e) {
      // it was only to save time: whoever asks next is told what is wrong
    }
    return at.answered;
  }

  private void ask(String book) throws IOException {
    long begun = System.nanoTime();
    String path = address + "api/books/" + book;
    for (String part : List.of("", "/doubts", "/history", "/map?pages=1")) {
      send(path + part, Optional.empty());
    }
    BarMap map = library.drafts().find(book).orElseThrow().value().map();
    List<Bar> rests = map.bars().stream().filter(b -> b.count() > 1).toList();
    for (int i = 0; i < CHECKS && !rests.isEmpty(); i++) {
      Bar rest = rests.get(i * 37 % rests.size());
      String correction =
          "{\"corrections\":[{\"kind\":\"set-count\",\"bar\":\"%s\",\"count\":%d}]}"
              .formatted(rest.id(), rest.count() + 1);
      send(path + "/corrections/check", Optional.of(correction));
      if (System.nanoTime() - begun > MOST_NANOS) {
        break;
      }
    }
  }

  private void send(String to, Optional<String> body) throws IOException {
    HttpURLConnection request = (HttpURLConnection) URI.create(to).toURL().openConnection();
    request.setRequestProperty("Authorization", "Bearer " + key);
    if (body.isPresent()) {
      request.setDoOutput(true);
      request.setRequestProperty("Content-Type", "application/json");
      try (OutputStream out = request.getOutputStream()) {
        out.write(body.get().getBytes(StandardCharsets.UTF_8));
      }
    }
    try (InputStream in = request.getInputStream()) {
      in.readAllBytes();
    }
    answered++;
  }
}
