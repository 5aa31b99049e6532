package org.barmap.bench.trust;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import org.barmap.bench.trust.Asked.Answer;
import org.barmap.bench.trust.Asked.Sent;
import tools.jackson.databind.JsonNode;

/** Sends broken files into books of its own, with as many broken requests about each of them. */
final class FuzzSender implements Runnable {

  /** As many files in an upload, and uploads into a book. */
  static final int AT_ONCE = 20;

  private static final int OF_A_BOOK = 10;
  private static final long APART = 1_000_003;

  /** What senders have in common. */
  record Shared(Served served, Tally tally, BrokenFiles files, BrokenRequests requests, long seed) {

    Asked asked() {
      return served.asked();
    }
  }

  private final Shared shared;
  private final AtomicInteger next;
  private final int end;
  private final long until;

  /** Those it made, or that were made of what it sent. */
  private final List<String> books = new ArrayList<>();

  private String book = "";
  private int uploads;

  /** So many of its pages are counted. */
  private int told;

  /**
   * Makes one.
   *
   * @param next the number of the next upload that nobody has sent yet; what is in it follows from
   *     that number, whoever sends it
   * @param end the number of the upload after the last one
   * @param until after this time, by the clock that only goes on, nothing more is sent
   */
  FuzzSender(Shared shared, AtomicInteger next, int end, long until) {
    this.shared = shared;
    this.next = next;
    this.end = end;
    this.until = until;
  }

  @Override
  public void run() {
    try {
      for (int upload = next.getAndIncrement();
          upload < end && System.nanoTime() < until;
          upload = next.getAndIncrement()) {
        if (uploads++ % OF_A_BOOK == 0) {
          remove();
          book = shared.served().book("Fuzz");
          books.add(book);
          told = 0;
        }
        send(new Random(shared.seed() * APART + upload));
      }
      remove();
    } catch (IOException | RuntimeException e) {
      shared.tally().wrong("unanswered", e.toString());
    }
  }

  private void send(Random random) throws IOException {
    List<Sent> pages = new ArrayList<>();
    for (int i = 0; i < AT_ONCE; i++) {
      Sent file = shared.files().next(random);
      if (file.name().startsWith("page")) {
        pages.add(file);
      } else if (file.name().equals("score.musicxml")) {
        long revision = shared.asked().get("/api/books/" + book).revision();
        String path = "/api/books/" + book + "/second";
        String match = "\"" + revision + "\"";
        seen(
            "file",
            answered(
                () ->
                    shared
                        .asked()
                        .upload(shared.asked().to(path).header("If-Match", match), List.of(file))));
      } else {
        keep(seen("file", answered(() -> shared.asked().upload("/api/books/open", List.of(file)))));
      }
      shared.tally().count("files");
    }
    String to = "/api/books/" + book + "/pages";
    seen("file", answered(() -> shared.asked().upload(to, pages)));
    shared.served().awaitRead(book);
    Answer now = seen("book", shared.asked().get("/api/books/" + book));
    ask(now, random);
  }

  /** Sends requests about the book; what its pages say of themselves was looked at before. */
  private void ask(Answer now, Random random) throws IOException {
    JsonNode pages = now.json().path("pages");
    for (; told < pages.size(); told++) {
      shared.tally().count("pages " + pages.path(told).path("state").asString(""));
    }
    String page = pages.isEmpty() ? "none" : pages.path(0).path("id").asString("");
    long revision = now.revision();
    for (int i = 0; i < AT_ONCE; i++) {
      BrokenRequests.About about = new BrokenRequests.About(book, page, revision);
      HttpRequest.Builder request = shared.requests().next(shared.asked(), about, random);
      Answer answer = seen("request", answered(() -> shared.asked().send(request)));
      keep(answer);
      revision = answer.isDone() && answer.revision() >= 0 ? answer.revision() : revision;
      shared.tally().count("requests");
    }
  }

  /** Something that is sent. */
  private interface Sending {
    Answer send() throws IOException;
  }

  /** A line that the service ends for its age, while something is sent on it, is no refusal. */
  private Answer answered(Sending sending) throws IOException {
    try {
      return sending.send();
    } catch (IOException e) {
      if (!shared.served().isAlive()) {
        throw e;
      }
      shared.tally().count("sent again");
      return sending.send();
    }
  }

  /** Remembers a book that came of it. */
  private void keep(Answer answer) {
    if (answer.status() == 201 && answer.text().startsWith("{")) {
      String id = answer.json().path("id").asString("");
      if (!id.isEmpty()) {
        books.add(id);
      }
    }
  }

  private Answer seen(String what, Answer answer) {
    shared.tally().count(what + "s answered " + answer.status());
    if (answer.status() >= 500) {
      shared.tally().wrong("server errors", answer.status() + " " + answer.text());
    }
    if (isTrace(answer.text())) {
      shared.tally().wrong("traces", answer.text());
    }
    return answer;
  }

  private static boolean isTrace(String text) {
    return text.contains("Exception") || text.contains("\tat ") || text.contains("java.");
  }

  private void remove() throws IOException {
    for (String one : books) {
      seen("removal", shared.asked().change("DELETE", "/api/books/" + one, 0, ""));
      seen("removal", shared.asked().change("DELETE", "/api/bin/" + one, 0, ""));
    }
    books.clear();
  }
}
