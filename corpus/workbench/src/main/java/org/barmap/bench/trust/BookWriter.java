package org.barmap.bench.trust;

import java.io.IOException;
import java.net.http.HttpTimeoutException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import org.barmap.bench.trust.Asked.Answer;
import org.barmap.bench.trust.Asked.Sent;
import tools.jackson.databind.JsonNode;

/** Writes into one book whatever comes to its mind, and looks after each start what is there. */
final class BookWriter implements Runnable {

  private static final int MOST_PAGES = 5;
  private static final int FEWEST_PAGES = 2;
  private static final int MOST_BEATS = 7;

  /** What can be done; what is named more often is done more often. */
  private enum Act {
    CHANGE,
    CHANGE_OUT,
    STEP,
    CORRECT,
    CORRECT_BACK,
    RENAME,
    UPLOAD,
    ORDER,
    REMOVE,
    AGAIN,
    BIN
  }

  private static final List<Act> OFTEN =
      List.of(Act.CHANGE, Act.CHANGE, Act.STEP, Act.CORRECT, Act.CORRECT, Act.CORRECT_BACK);

  private final Served served;
  private final Gate gate;
  private final Tally tally;
  private final Random random;
  private final Map<String, byte[]> pictures;
  private final String book;
  private final BookLedger ledger;
  private final BookCheck check;
  private int marks;

  BookWriter(
      Served served,
      Gate gate,
      Tally tally,
      Map<String, byte[]> pictures,
      BookCheck check,
      long seed) {
    this.served = served;
    this.gate = gate;
    this.tally = tally;
    this.random = new Random(seed);
    this.pictures = pictures;
    this.book = check.book();
    this.ledger = check.ledger();
    this.check = check;
  }

  @Override
  public void run() {
    try {
      int start = gate.await();
      while (!gate.isOver()) {
        int now = gate.await();
        try {
          if (now != start) {
            start = now;
            check.look(false);
          }
          act();
        } catch (HttpTimeoutException e) {
          tally.wrong("unanswered", String.valueOf(e.getMessage()));
          check.look(false);
        } catch (IOException e) {
          tally.count("broken off");
          gate.awaitAfter(now);
        }
      }
    } catch (IOException | RuntimeException e) {
      tally.wrong("driver", e.toString());
    }
  }

  private String mark() {
    return "m" + book + "x" + ++marks;
  }

  private void act() throws IOException {
    Act[] all = Act.values();
    Act act =
        random.nextInt(3) > 0
            ? OFTEN.get(random.nextInt(OFTEN.size()))
            : all[random.nextInt(all.length)];
    switch (act) {
      case CHANGE -> change();
      case CHANGE_OUT -> changeOut();
      case STEP -> step();
      case CORRECT -> correct();
      case CORRECT_BACK -> correctBack();
      case RENAME -> rename();
      case UPLOAD -> upload();
      case ORDER, REMOVE, AGAIN -> pages(act);
      case BIN -> bin();
    }
  }

  private String path(String below) {
    return "/api/books/" + book + below;
  }

  /** Tells whether it was acknowledged; what else may be answered is counted. */
  private boolean isDone(Answer answer, String what) {
    if (answer.isDone()) {
      tally.count("acknowledged " + what);
      return true;
    }
    if (answer.status() >= 500) {
      tally.wrong("server errors", what + ": " + answer.status() + " " + answer.text());
    } else {
      tally.count(answer.status() == 412 ? "stale" : "refused " + what);
    }
    return false;
  }

  private <T> boolean send(Fact<T> fact, T next, String what, Sending request) throws IOException {
    fact.expect(next);
    boolean done = isDone(request.send(), what);
    if (done) {
      fact.done();
    } else {
      fact.refused();
    }
    return done;
  }

  /** A request that may get no answer. */
  private interface Sending {
    Answer send() throws IOException;
  }

  private long changesRevision() throws IOException {
    return served.asked().get(path("/changes")).revision();
  }

  private void changes(int step, List<String> next, Sending request, String what)
      throws IOException {
    ledger.going(step);
    if (send(ledger.changes, next, what, request)) {
      ledger.changed();
    }
  }

  private void change() throws IOException {
    String mark = mark();
    long revision = changesRevision();
    List<String> next = new ArrayList<>(ledger.changes.sure());
    next.add(mark);
    String body =
        "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"%s\"}"
            .formatted(mark);
    changes(
        0, next, () -> served.asked().change("POST", path("/changes"), revision, body), "changes");
  }

  private void changeOut() throws IOException {
    Answer now = served.asked().get(path("/changes"));
    JsonNode list = now.json().path("changes");
    if (list.isEmpty()) {
      return;
    }
    int at = random.nextInt(list.size());
    List<String> next = new ArrayList<>(ledger.changes.sure());
    next.remove(at);
    String id = list.path(at).path("id").asString("");
    changes(
        0,
        next,
        () -> served.asked().change("DELETE", path("/changes/" + id), now.revision(), ""),
        "changes out");
  }

  private void step() throws IOException {
    boolean back = random.nextBoolean();
    Optional<List<String>> next = back ? ledger.before() : ledger.after();
    long revision = changesRevision();
    if (next.isPresent()) {
      String way = back ? "/changes/undo" : "/changes/redo";
      changes(
          back ? -1 : 1,
          next.get(),
          () -> served.asked().change("POST", path(way), revision, ""),
          "steps");
    }
  }

  private void correct() throws IOException {
    Answer map = served.asked().get(path("/map"));
    JsonNode bars = map.json().path("bars");
    if (bars.isEmpty()) {
      return;
    }
    String mark = mark();
    String bar = bars.path(random.nextInt(bars.size())).path("id").asString("");
    int beats = 1 + random.nextInt(MOST_BEATS);
    ledger.perhapsCorrected = Optional.of(mark);
    ledger.unsure.add(bar);
    Answer answer =
        served
            .asked()
            .change(
                "POST",
                path("/corrections"),
                map.revision(),
                "{\"kind\":\"set-meter\",\"bar\":\"%s\",\"beats\":%d,\"unit\":8,\"who\":\"%s\"}"
                    .formatted(bar, beats, mark));
    ledger.perhapsCorrected = Optional.empty();
    ledger.unsure.remove(bar);
    if (isDone(answer, "corrections")) {
      ledger.corrections.put(answer.json().path("entry").path("id").asString(""), false);
      ledger.meters.put(bar, "");
      check.note(answer.json().path("map"));
    }
  }

  /** Takes the last correction back, or does it again. */
  private void correctBack() throws IOException {
    boolean back = random.nextInt(3) > 0;
    long revision = served.asked().get(path("/map")).revision();
    JsonNode entries = served.asked().get(path("/history")).json().path("entries");
    if (!check.isCorrection(entries, back)) {
      return;
    }
    ledger.perhapsStepped = Optional.of("");
    Answer answer = served.asked().change("POST", path(back ? "/undo" : "/redo"), revision, "");
    ledger.perhapsStepped = Optional.empty();
    if (isDone(answer, "corrections back")) {
      ledger.corrections.put(answer.json().path("entry").path("id").asString(""), back);
      check.note(answer.json().path("map"));
    }
  }

  private void rename() throws IOException {
    String mark = mark();
    long revision = served.asked().get(path("")).revision();
    send(
        ledger.title,
        mark,
        "titles",
        () -> served.asked().change("PATCH", path(""), revision, "{\"title\":\"" + mark + "\"}"));
  }

  /** Begins with pages that are read in quiet. */
  void begin() throws IOException {
    for (int i = 0; i < FEWEST_PAGES; i++) {
      upload();
    }
  }

  private void upload() throws IOException {
    if (ledger.sources.sure().size() >= MOST_PAGES) {
      return;
    }
    String picture = List.copyOf(pictures.keySet()).get(random.nextInt(pictures.size()));
    String name = mark() + "-" + picture;
    List<String> next = new ArrayList<>(ledger.sources.sure());
    next.add(name);
    byte[] bytes = Objects.requireNonNull(pictures.get(picture));
    send(
        ledger.sources,
        next,
        "uploads",
        () -> served.asked().upload(path("/pages"), List.of(new Sent(name, bytes))));
  }

  /** What is done with pages that are all there. */
  private void pages(Act act) throws IOException {
    Answer now = served.asked().get(path(""));
    JsonNode there = now.json().path("pages");
    if (!now.json().path("job").isMissingNode() || there.size() <= FEWEST_PAGES) {
      return;
    }
    int at = random.nextInt(there.size());
    String one = path("/pages/" + there.path(at).path("id").asString(""));
    List<String> next = new ArrayList<>(ledger.sources.sure());
    if (act == Act.ORDER) {
      List<Integer> places = new ArrayList<>();
      there.forEach(p -> places.add(places.size()));
      Collections.shuffle(places, random);
      String order =
          String.join(",", places.stream().map(i -> "\"" + id(there.path(i)) + "\"").toList());
      send(
          ledger.sources,
          places.stream().map(next::get).toList(),
          "orders",
          () ->
              served
                  .asked()
                  .change(
                      "POST", path("/pages/order"), now.revision(), "{\"order\":[" + order + "]}"));
    } else if (act == Act.REMOVE) {
      next.remove(at);
      ledger.meters.clear();
      send(
          ledger.sources,
          next,
          "pages out",
          () -> served.asked().change("DELETE", one, now.revision(), ""));
    } else {
      isDone(served.asked().change("POST", one + "/again", now.revision(), ""), "read again");
    }
  }

  private static String id(JsonNode page) {
    return page.path("id").asString("");
  }

  private void bin() throws IOException {
    if (isDone(served.asked().change("DELETE", path(""), 0, ""), "binned")) {
      isDone(served.asked().post(path("/restore"), ""), "brought back");
    }
  }
}
