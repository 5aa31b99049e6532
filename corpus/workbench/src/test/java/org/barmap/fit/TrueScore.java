package org.barmap.fit;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.barmap.map.Barline;
import org.barmap.map.Meter;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.SecondReading.Part;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.cells.Marks;
import tools.jackson.databind.JsonNode;

/**
 * A truth of the corpus as the director's score has it: every bar written out, no rest drawn
 * together. Differences are put in by the tests.
 */
final class TrueScore {

  /** The bars one by one; tests change them. */
  final List<Measure> bars = new ArrayList<>();

  /**
   * @param file the truth of a page or of a book
   */
  TrueScore(Path file) {
    for (JsonNode bar : json(file).path("bars")) {
      int count = bar.path("count").asInt(1);
      for (int i = 0; i < count; i++) {
        bars.add(measure(bar, i, count));
      }
    }
  }

  private static JsonNode json(Path file) {
    try {
      return BarMapJson.mapper().readTree(Files.readString(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Measure measure(JsonNode bar, int i, int count) {
    String mark = bar.at("/rehearsal/text").asString("");
    String label = i == 0 ? bar.path("label").asString("") : "";
    int number = bar.path("number").asInt() + i;
    List<Integer> ending = new ArrayList<>();
    bar.path("ending").forEach(e -> ending.add(e.asInt()));
    boolean opens = i == 0 && bar.path("startBarline").asString("").startsWith("repeat-start");
    return new Measure(
        label.isEmpty() ? Integer.toString(number) : label,
        number == 0,
        Optional.of(
            new Meter(bar.at("/meter/beats").asInt(), bar.at("/meter/unit").asInt(), false)),
        Optional.empty(),
        bar.path("content").asString("music").endsWith("rest"),
        0,
        opens ? Barline.REPEAT_START : Barline.NONE,
        i < count - 1 ? Barline.SINGLE : barline(bar.path("endBarline").asString("single")),
        bar.has("times") ? Optional.of(bar.path("times").asInt()) : Optional.empty(),
        i == 0 && !mark.isEmpty() ? Optional.of(mark) : Optional.empty(),
        ending,
        List.of());
  }

  private static Barline barline(String word) {
    for (Barline b : Barline.values()) {
      if (b.word().equals(word)) {
        return b;
      }
    }
    return Barline.SINGLE;
  }

  /**
   * Where bar {@code number} of the {@code nth} musical number is; from 1, tacet ones not counted.
   */
  int at(int nth, int number) {
    int seen = 0;
    for (int i = 0; i < bars.size(); i++) {
      int now = Marks.number(bars.get(i).number());
      seen += i == 0 || now < Marks.number(bars.get(i - 1).number()) ? 1 : 0;
      if (seen == nth && now == number) {
        return i;
      }
    }
    throw new IllegalArgumentException("no bar " + number + " in number " + nth);
  }

  /** Puts bars like the one before there. */
  void insert(int at, int n) {
    Measure like = bars.get(at - 1);
    for (int i = 0; i < n; i++) {
      bars.add(at, plain(like, like.rest()));
    }
  }

  void remove(int at, int n) {
    bars.subList(at, at + n).clear();
  }

  void mark(int at, String text) {
    bars.set(at, with(bars.get(at), text.isEmpty() ? Optional.empty() : Optional.of(text)));
  }

  void unmarked() {
    bars.replaceAll(m -> with(m, Optional.empty()));
  }

  void multiRest(int at, int count) {
    Measure m = bars.get(at);
    bars.set(at, copy(m, m.number(), m.implicit(), count, m.rehearsal()));
  }

  /** Puts a difference in and counts anew. */
  TrueScore with(Consumer<TrueScore> made) {
    made.accept(this);
    countedAnew();
    return this;
  }

  /** Counts on from each beginning of a musical number, as programs do after a bar more or less. */
  void countedAnew() {
    int number = 0;
    int last = -1;
    for (int i = 0; i < bars.size(); i++) {
      int now = Marks.number(bars.get(i).number());
      boolean begins = i == 0 || (now <= 1 && now < last);
      number = begins ? now : number + 1;
      last = now;
      bars.set(i, numbered(bars.get(i), Integer.toString(number), number == 0));
    }
  }

  /** Counts through the whole show; a pickup is counted as a bar. */
  void countedThrough() {
    IntStream.range(0, bars.size())
        .forEach(i -> bars.set(i, numbered(bars.get(i), Integer.toString(i + 1), false)));
  }

  Part part() {
    return new Part("P1", "Bass", bars);
  }

  /** The same bar without what stands at its beginning and end. */
  static Measure plain(Measure m, boolean rest) {
    return new Measure(
        m.number(),
        false,
        m.meter(),
        m.key(),
        rest,
        0,
        Barline.NONE,
        Barline.SINGLE,
        Optional.empty(),
        Optional.empty(),
        m.ending(),
        List.of());
  }

  static Measure numbered(Measure m, String number, boolean implicit) {
    return copy(m, number, implicit, m.multiRest(), m.rehearsal());
  }

  private static Measure with(Measure m, Optional<String> mark) {
    return copy(m, m.number(), m.implicit(), m.multiRest(), mark);
  }

  private static Measure copy(
      Measure m, String number, boolean implicit, int multiRest, Optional<String> mark) {
    return new Measure(
        number,
        implicit,
        m.meter(),
        m.key(),
        m.rest(),
        multiRest,
        m.start(),
        m.end(),
        m.times(),
        mark,
        m.ending(),
        m.signs());
  }
}
