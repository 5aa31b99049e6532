package org.barmap.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import tools.jackson.databind.JsonNode;

/**
 * A book whose pages are truths of the corpus, read without an error or with errors drawn at
 * random.
 *
 * <p>Pages that begin in the middle of a musical number go on where the page before ended: what is
 * numbered before their first restart is numbered anew (numbers printed there and marks that say
 * their bar's number as well; letters that would not follow are left out). After a final barline
 * they begin a musical number instead.
 */
final class TrueReadings {

  /** Shares of signs that go wrong. */
  record Errors(double missed, double invented, double counts, double anchors, boolean traces) {
    static final Errors NONE = new Errors(0, 0, 0, 0, false);

    /** Barlines are missed without a trace, as where a copy's ink is gone. */
    static final Errors USUAL = new Errors(0.05, 0.02, 0.10, 0.10, false);

    /** Missed barlines leave the faint peaks that the reader's own misses were seen to leave. */
    static final Errors AS_READ = new Errors(0.05, 0.02, 0.10, 0.10, true);
  }

  /** One true bar entry: the system it is in, counted through the book, and where. */
  record TrueBar(int system, double from, double to, int number, int count) {}

  /** An error that was drawn. */
  record Injected(String kind, int system, double at) {}

  /**
   * Share of whole-bar rests and bar-repeat signs that are read, and how far off the middle of
   * their bar (within a line, and in its first bar) such signs are read, and others off their
   * place; as measured on the corpus's pages, rounded up; staff spaces.
   */
  private static final double SEEN = 0.989;

  private static final double OFF = 0.15;
  private static final double OFF_FIRST = 0.8;
  private static final double OFF_ABOVE = 1;

  final List<ReadPage> pages = new ArrayList<>();
  final List<TrueBar> bars = new ArrayList<>();
  final List<Injected> injected = new ArrayList<>();

  private final Random random;
  private final UnsureReader reader;
  private final Errors errors;
  private int systems;
  private int next = 1;
  private boolean ended;

  TrueReadings(List<JsonNode> truths, Errors errors, long seed) {
    this.random = new Random(seed);
    this.reader = new UnsureReader(random);
    this.errors = errors;
    truths.forEach(this::page);
  }

  private void page(JsonNode truth) {
    JsonNode page = truth.at("/pages/0");
    List<JsonNode> all = new ArrayList<>();
    truth.path("bars").forEach(all::add);
    boolean middle = !pages.isEmpty() && number(all.get(0)) > 1;
    boolean anew = middle && ended;
    int shift = middle ? (anew ? 1 : next) - number(all.get(0)) : 0;
    List<ReadSystem> read = new ArrayList<>();
    boolean going = true;
    int expected = number(all.get(0));
    for (JsonNode system : page.path("systems")) {
      List<JsonNode> own =
          all.stream()
              .filter(b -> b.path("system").asInt() == system.path("index").asInt())
              .toList();
      if (own.isEmpty()) {
        continue;
      }
      boolean starts =
          number(own.get(0)) <= 1 && (number(own.get(0)) != expected || read.isEmpty());
      going &= !starts;
      starts |= anew && read.isEmpty();
      read.add(system(truth, system, own, going ? shift : 0, starts));
      systems++;
      JsonNode last = own.get(own.size() - 1);
      expected = number(last) + last.path("count").asInt(1);
      next = expected + (going ? shift : 0);
      ended = last.path("endBarline").asString("").equals("final");
    }
    int index = pages.size() + 1;
    pages.add(
        new ReadPage(
            index, "page-" + index, page.path("width").asInt(), page.path("height").asInt(), read));
  }

  /**
   * Tells whether anything printed after an error says a number before counting starts again, so
   * that the error can be noticed.
   */
  boolean anchoredAfter(Injected error) {
    int system = 0;
    for (ReadPage page : pages) {
      for (ReadSystem s : page.systems()) {
        boolean after = system > error.system();
        if (after && s.signs().stream().anyMatch(x -> x.kind() == SignKind.HEADING)) {
          return false;
        }
        double from = after ? -1 : error.at() + 1;
        boolean same = error.kind().equals("anchor") && !after;
        if (system >= error.system() && !same && s.signs().stream().anyMatch(x -> says(x, from))) {
          return true;
        }
        system++;
      }
    }
    return error.kind().equals("anchor");
  }

  private static boolean says(Sign sign, double from) {
    boolean number = sign.kind() == SignKind.BAR_NUMBER;
    return number && sign.at() > from;
  }

  private static int number(JsonNode bar) {
    return bar.path("number").asInt();
  }

  private ReadSystem system(
      JsonNode truth, JsonNode system, List<JsonNode> own, int shift, boolean starts) {
    List<Sign> signs = new ArrayList<>();
    double space = system.path("staffSpace").asDouble();
    Along along = Along.of(system.path("outline"), space);
    double length = along.at(system.path("outline"), 1);
    if (starts) {
      signs.add(sign(SignKind.HEADING, 2, 20, 0.97, List.of(new Reading("No. 1", 0.95))));
    }
    if (system.hasNonNull("printedBarNumber")) {
      int printed = system.path("printedBarNumber").asInt() + shift;
      signs.add(sign(SignKind.BAR_NUMBER, 0.5, 2, 0.97, anchor(printed, 1)));
    }
    double before = 0;
    double first = along.at(own.get(0).path("outline"), 0);
    List<double[]> sides = new ArrayList<>();
    double musicBegin = first + 2.2 * Math.exp(0.7 * random.nextGaussian());
    for (int i = 0; i < own.size(); i++) {
      JsonNode bar = own.get(i);
      double from = along.at(bar.path("outline"), 0);
      double to = along.at(bar.path("outline"), 1);
      sides.add(new double[] {from, to});
      int count = bar.path("count").asInt(1);
      bars.add(new TrueBar(systems, from, to, number(bar) + shift, count));
      bar(signs, bar, from, to, count, shift);
      boolean last = i == own.size() - 1;
      if (!last || !bar.path("endBarline").asString("single").equals("none")) {
        line(signs, bar, Math.max(before, from), to, last);
      }
      before = to;
    }
    int index = system.path("index").asInt();
    StaffSystem staff =
        new StaffSystem(
            index,
            Outline.box(0, index * 100, 10 * length, index * 100 + 40),
            10,
            Optional.empty(),
            1,
            List.of());
    // nothing is written after the last bar
    return new ReadSystem(
        staff,
        length,
        (a, b) -> Outline.box(a * 10, index * 100, b * 10, index * 100 + 40),
        signs,
        0,
        musicBegin,
        before,
        ReadSounds.on(truth, system, sides));
  }

  private void bar(List<Sign> signs, JsonNode bar, double from, double to, int count, int shift) {
    String content = bar.path("content").asString("");
    boolean seen = random.nextDouble() < SEEN;
    double middle = (from + to) / 2 + off(from > 8 ? OFF : OFF_FIRST);
    if (count > 1) {
      double half = Math.max(0.5, (to - from) / 2 - 2);
      signs.add(sign(SignKind.MULTI_REST, middle - half, middle + half, 0.98, List.of()));
      boolean wrong = draw(errors.counts(), "count", middle);
      signs.add(
          sign(
              SignKind.COUNT,
              middle - 1,
              middle + 1,
              0.98,
              reader.readings(count, wrong, errors.counts())));
    } else if (seen && content.equals("rest")) {
      signs.add(sign(SignKind.REST, middle - 0.5, middle + 0.5, 0.98, List.of()));
    } else if (seen && content.equals("bar-repeat")) {
      signs.add(sign(SignKind.BAR_REPEAT, middle - 1, middle + 1, 0.98, List.of()));
    }
    for (JsonNode navigation : bar.path("signs")) {
      SignKind kind = navigation.asString("").equals("segno") ? SignKind.SEGNO : SignKind.CODA;
      if (navigation.asString("").equals(kind.word())) {
        double at = from + 2 + off(OFF_ABOVE);
        signs.add(sign(kind, at - 0.8, at + 0.8, 0.98, List.of()));
      }
    }
    JsonNode meter = bar.path("meter");
    if (meter.path("printed").asBoolean()) {
      String text = meter.path("beats").asInt() + "/" + meter.path("unit").asInt();
      signs.add(sign(SignKind.METER, from + 1, from + 2.5, 0.98, List.of(new Reading(text, 0.99))));
    }
    String mark = bar.at("/rehearsal/text").asString("");
    if (mark.matches("\\d+") && Integer.parseInt(mark) == number(bar)) {
      int value = number(bar) + shift;
      signs.add(mark(from - 0.8 + off(0.5), anchor(value, from)));
    } else if (!mark.isEmpty() && (shift == 0 || mark.matches("\\d+"))) {
      signs.add(mark(from - 0.8 + off(0.5), List.of(new Reading(mark, 0.999))));
    }
  }

  /** How far a sign is drawn off its place: mostly hardly, at times by several times that. */
  private double off(double usual) {
    double side = random.nextBoolean() ? 1 : -1;
    return side * usual * -Math.log(1 - random.nextDouble());
  }

  private static Sign mark(double from, List<Reading> readings) {
    return new Sign(
        SignKind.REHEARSAL,
        from,
        from + 2,
        -5,
        -3,
        Outline.box(from * 10, 0, from * 10 + 20, 20),
        0.98,
        readings,
        Optional.of(Enclosure.BOX));
  }

  private List<Reading> anchor(int value, double at) {
    return reader.readings(value, draw(errors.anchors(), "anchor", at), errors.anchors());
  }

  private boolean draw(double share, String kind, double at) {
    boolean wrong = random.nextDouble() < share;
    if (wrong) {
      injected.add(new Injected(kind, systems, at));
    }
    return wrong;
  }

  private void line(List<Sign> signs, JsonNode bar, double from, double to, boolean last) {
    if (last || !draw(errors.missed(), "missed", to)) {
      boolean doubtful = random.nextDouble() < errors.invented() * 0.735 / 0.265;
      String type = bar.path("endBarline").asString("single");
      signs.add(
          barline(
              to, type, doubtful ? UnsureReader.said(reader.calibrated(false, 0.5, 0.97)) : 0.999));
    } else if (errors.traces()) {
      Traces.left(random.nextDouble()).ifPresent(p -> signs.add(barline(to, "single", p)));
    }
    double faint = from + (to - from) * (0.1 + 0.8 * random.nextDouble());
    if (errors.traces()) {
      Traces.none(random.nextDouble()).ifPresent(p -> signs.add(barline(faint, "single", p)));
    }
    double at = from + (to - from) * (0.2 + 0.6 * random.nextDouble());
    if (to - from > 3 && draw(errors.invented(), "invented", at)) {
      signs.add(barline(at, "single", UnsureReader.said(reader.calibrated(true, 0.5, 0.97))));
    }
  }

  private static Sign barline(double at, String type, double p) {
    return sign(SignKind.BARLINE, at - 0.1, at + 0.1, p, List.of(new Reading(type, 1)));
  }

  private static Sign sign(
      SignKind kind, double from, double to, double p, List<Reading> readings) {
    return new Sign(
        kind,
        from,
        to,
        -2,
        2,
        Outline.box(from * 10, 0, to * 10, 40),
        p,
        readings,
        Optional.empty());
  }
}
