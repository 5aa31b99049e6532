package org.barmap.bench.trust;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.bench.trust.Asked.Answer;
import org.barmap.map.json.BadMapException;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;

/**
 * Looks whether a book holds what its ledger says, and whether its map is whole: by the schema, on
 * the right pictures, with a plan.
 *
 * @param looks by the name of a picture, what its first line looks like when it is read by itself
 */
record BookCheck(
    Served served, Tally tally, String book, BookLedger ledger, Map<String, String> looks) {

  private Answer get(String below) throws IOException {
    Answer answer = served.asked().get("/api/books/" + book + below);
    if (answer.status() >= 500) {
      tally.wrong("server errors", below + ": " + answer.status() + " " + answer.text());
    }
    return answer;
  }

  /**
   * Looks at all of it.
   *
   * @param settled whether to wait until nothing is being read any more
   */
  void look(boolean settled) throws IOException {
    Answer there = get("");
    if (there.status() == 404) {
      // the service ended between bin and back
      if (!served.asked().post("/api/books/" + book + "/restore", "").isDone()) {
        tally.wrong("lost", "book " + book);
        return;
      }
      there = get("");
    }
    if (settled || ledger.sources.isUnsure()) {
      // not before it is out of the bin: in there nothing is read
      served.awaitRead(book);
      there = get("");
    }
    JsonNode card = there.json();
    expect(ledger.title.isSeen(card.path("title").asString("")), "title of " + book);
    lookAtPages(card, settled || card.path("job").isMissingNode());
    lookAtChanges();
    lookAtCorrections();
    lookAtMap(card);
    tally.count("looked");
  }

  private void expect(boolean held, String what) {
    if (!held) {
      tally.wrong("lost", what + "; " + BookRows.of(served.data(), book));
    }
  }

  private void whole(boolean held, String what) {
    if (!held) {
      tally.wrong("broken", what);
    }
  }

  /** Pages stay in their order; an upload is a page when nothing waits any more. */
  private void lookAtPages(JsonNode card, boolean settled) throws IOException {
    List<String> seen = new ArrayList<>();
    for (JsonNode page : card.path("pages")) {
      seen.add(page.path("source").asString(""));
      whole(!page.path("state").asString("").equals("failed"), "page failed: " + page);
      String picture = "/pages/" + page.path("id").asString("") + "/image?width=200";
      whole(get(picture).isDone(), "picture of " + page);
    }
    List<String> sure = ledger.sources.sure();
    List<String> waiting = sure.stream().filter(s -> !ledger.opened.contains(s)).toList();
    if (settled || waiting.isEmpty()) {
      expect(ledger.sources.isSeen(seen), "pages of " + book + ": " + sure + " came as " + seen);
      ledger.opened.clear();
      ledger.opened.addAll(ledger.sources.sure());
    } else {
      Set<String> open = new HashSet<>(seen);
      open.addAll(ledger.opened);
      List<String> prefix = sure.stream().filter(open::contains).toList();
      expect(
          seen.size() > sure.size() || seen.equals(prefix),
          "opened pages of " + book + ": " + prefix + " came as " + seen);
    }
  }

  private void lookAtChanges() throws IOException {
    List<String> seen = new ArrayList<>();
    get("/changes").json().path("changes").forEach(c -> seen.add(c.path("text").asString("")));
    expect(
        ledger.changes.isSeen(seen),
        "changes of " + book + ": " + ledger.changes.sure() + " came as " + seen);
    ledger.changed();
  }

  private void lookAtCorrections() throws IOException {
    Map<String, Boolean> seen = new HashMap<>();
    for (JsonNode entry : get("/history").json().path("entries")) {
      String id = entry.path("id").asString("");
      seen.put(id, entry.path("undone").asBoolean(false));
      if (ledger.perhapsCorrected.filter(entry.path("who").asString("")::equals).isPresent()) {
        ledger.corrections.put(id, seen.get(id));
      }
    }
    ledger.perhapsCorrected = Optional.empty();
    boolean stepped = ledger.perhapsStepped.isPresent();
    ledger.perhapsStepped = Optional.empty();
    int other = 0;
    for (Map.Entry<String, Boolean> one : ledger.corrections.entrySet()) {
      Boolean undone = seen.get(one.getKey());
      if (undone == null) {
        expect(one.getValue(), "correction " + one.getKey() + " of " + book);
      } else if (!undone.equals(one.getValue())) {
        other++;
        one.setValue(undone);
      }
    }
    expect(other <= (stepped ? 1 : 0), other + " corrections of " + book + " back or forth");
    if (other > 0) {
      ledger.unsure.addAll(ledger.meters.keySet());
    }
  }

  private void lookAtMap(JsonNode card) throws IOException {
    Answer map = get("/export/map");
    try {
      BarMapJson.read(map.text());
    } catch (BadMapException e) {
      whole(false, "map of " + book + ": " + e.getMessage());
    }
    JsonNode tree = get("/map").json();
    Map<String, String> meters = new HashMap<>();
    tree.path("bars").forEach(b -> meters.put(id(b), b.path("meter").toString()));
    ledger.unsure.forEach(ledger.meters::remove);
    ledger.unsure.clear();
    ledger.meters.forEach(
        (bar, meter) ->
            expect(
                meter.equals(meters.get(bar)),
                "meter of " + bar + " in " + book + ": " + meter + " came as " + meters.get(bar)));
    JsonNode pages = card.path("pages");
    for (JsonNode page : tree.path("pages")) {
      int index = page.path("index").asInt(0);
      String source = page.path("source").asString("");
      String there = pages.path(index - 1).path("source").asString(source);
      whole(there.equals(source), "page " + index + " of " + book + " is on another picture");
      String look = looks.getOrDefault(source.substring(source.indexOf('-') + 1), "unknown");
      boolean read = !page.path("systems").isEmpty();
      whole(!read || look(page).equals(look), "lines of " + source);
    }
    whole(get("/plan").isDone(), "plan of " + book);
  }

  /** Returns what the first line of a page looks like: where it lies. */
  static String look(JsonNode page) {
    return page.path("systems").path(0).path("outline").toString();
  }

  private static String id(JsonNode node) {
    return node.path("id").asString("");
  }

  /** Keeps the meters that bars in the ledger have now; what follows from another one is not. */
  void note(JsonNode map) {
    Set<String> bars = Set.copyOf(ledger.meters.keySet());
    ledger.meters.clear();
    for (JsonNode one : map.path("bars")) {
      if (bars.contains(id(one)) && one.path("meter").path("printed").asBoolean(false)) {
        ledger.meters.put(id(one), one.path("meter").toString());
      }
    }
  }

  /** Tells whether the next step back or forth is about a correction in the ledger. */
  boolean isCorrection(JsonNode entries, boolean back) {
    String last = "";
    String when = "";
    for (JsonNode entry : entries) {
      boolean undone = entry.path("undone").asBoolean(false);
      if (!back && undone && !ledger.corrections.containsKey(id(entry))) {
        return false;
      }
      if (undone != back && entry.path("when").asString("").compareTo(when) >= 0) {
        when = entry.path("when").asString("");
        last = id(entry);
      }
    }
    return ledger.corrections.containsKey(last);
  }
}
