package org.barmap.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.plan.order.OpenRun;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Holds;
import org.barmap.plan.page.Sides;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Span;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.rest.RestCount;
import org.barmap.plan.show.AheadMarks;

/** Collects what to know before it comes: what the next page starts with, and traps. */
final class Ahead {
  /** A meter that lasts no longer than this is a trap, not a change. */
  private static final int ODD_BARS = 2;

  private final List<LookAhead> found = new ArrayList<>();
  private final Set<String> seen = new HashSet<>();
  private final Sides sides;

  /** Looks over the turns of a book. */
  Ahead(Sides sides) {
    this.sides = sides;
  }

  List<LookAhead> found() {
    return List.copyOf(found);
  }

  void number(Performance performance, List<LongRest> rests) {
    List<PlayedPiece> steps = performance.order().steps();
    List<OpenRun> runs = OpenRun.of(performance.order());
    for (int i = 0; i < steps.size(); i++) {
      Piece piece = steps.get(i).piece();
      if (i > 0) {
        Piece before = steps.get(i - 1).piece();
        if (sides.turned(before.bar().page(), piece.bar().page())) {
          page(performance, before, piece, rest(performance.order(), runs, i));
        }
        meter(performance, steps, i);
        key(performance, steps, i);
      }
      hold(performance, piece);
    }
    Map<String, PlayedPiece> first = new HashMap<>();
    steps.forEach(s -> first.putIfAbsent(s.piece().bar().id(), s));
    for (LongRest rest : rests) {
      rest.entrance().ifPresent(id -> entrance(performance, first, rest, id));
    }
  }

  /** Adds what the show does otherwise than the print. */
  void changes(Performance performance, List<Span> spans) {
    String label = performance.number().label();
    for (AheadMarks.Told told : AheadMarks.of(performance, spans)) {
      Bar bar = told.bar();
      if (seen.add(told.kind() + bar.id() + told.text())) {
        found.add(
            new LookAhead(told.kind(), label, bar.page(), bar.id(), told.text(), Optional.empty()));
      }
    }
  }

  /** Counts the rest that a step begins, up to the entrance. */
  private static RestCount rest(OrderOfPlay order, List<OpenRun> runs, int i) {
    List<PlayedPiece> steps = order.steps();
    int to = i;
    while (to + 1 < steps.size() && steps.get(to + 1).piece().rest()) {
      to++;
    }
    return RestCount.of(order, runs, i, to);
  }

  private void page(Performance performance, Piece before, Piece piece, RestCount rest) {
    add(
        "page-start",
        performance,
        piece,
        "Page " + piece.bar().page() + " starts with " + describe(performance, piece, rest),
        Optional.of(before.bar().page()));
  }

  /** A mark that is the bar's number says nothing more. */
  private static String mark(Bar bar, String name) {
    return bar.rehearsal()
        .map(m -> m.text())
        .filter(m -> !m.equals(name))
        .map(m -> " (mark " + m + ")")
        .orElse("");
  }

  private static String describe(Performance performance, Piece piece, RestCount rest) {
    String mark = piece.first() ? mark(piece.bar(), name(performance, piece)) : "";
    String meter =
        piece.bar().meter().filter(Meter::printed).map(m -> ", " + figures(m)).orElse("");
    String key = piece.bar().key().filter(Key::printed).map(k -> ", " + k.says()).orElse("");
    String what =
        piece.rest()
            ? rest(rest)
            : piece.bar().silentStart().filter(s -> s > 0).isPresent()
                ? "music after a short rest"
                : "music at once";
    return "bar " + name(performance, piece) + mark + key + meter + ": " + what;
  }

  private static String rest(RestCount rest) {
    int bars = rest.bars();
    String said = bars == 1 ? "a bar's rest" : bars + " bars' rest";
    return rest.plain() ? said : said + " (" + String.join(", ", rest.says()) + ")";
  }

  private void meter(Performance performance, List<PlayedPiece> steps, int i) {
    Optional<Meter> before = steps.get(i - 1).piece().bar().meter();
    Optional<Meter> now = steps.get(i).piece().bar().meter();
    if (before.isEmpty() || now.isEmpty() || before.get().sameAs(now.get())) {
      return;
    }
    int bars = 0;
    int k = i;
    while (k < steps.size()
        && bars <= ODD_BARS
        && steps.get(k).piece().bar().meter().filter(now.get()::sameAs).isPresent()) {
      bars += steps.get(k).piece().count();
      k++;
    }
    boolean odd = bars <= ODD_BARS && k < steps.size();
    Piece piece = steps.get(i).piece();
    String where = name(performance, piece);
    add(
        odd ? "odd-bar" : "meter",
        performance,
        piece,
        odd
            ? (bars == 1 ? "One bar of " : bars + " bars of ")
                + figures(now.get())
                + " at bar "
                + where
            : figures(now.get()) + " from bar " + where,
        Optional.empty());
  }

  private void key(Performance performance, List<PlayedPiece> steps, int i) {
    Optional<Key> before = performance.key(steps.get(i - 1));
    Optional<Key> now = performance.key(steps.get(i));
    if (before.isPresent() && now.isPresent() && !before.get().sameAs(now.get())) {
      Piece piece = steps.get(i).piece();
      add(
          "key",
          performance,
          piece,
          "Key: " + now.get().says() + " from bar " + name(performance, piece),
          Optional.empty());
    }
  }

  private void hold(Performance performance, Piece piece) {
    if (Holds.isPause(piece)) {
      add("hold", performance, piece, "G.P. in bar " + name(performance, piece), Optional.empty());
    } else if (piece.last() && piece.bar().has(Navigation.CAESURA)) {
      add(
          "hold",
          performance,
          piece,
          "Stop after bar " + name(performance, piece) + ", on at the cue",
          Optional.empty());
    } else if (piece.last() && piece.bar().has(Navigation.FERMATA)) {
      add("hold", performance, piece, "Hold in bar " + name(performance, piece), Optional.empty());
    }
  }

  private void entrance(
      Performance performance, Map<String, PlayedPiece> first, LongRest rest, String id) {
    PlayedPiece step = first.get(id);
    if (step == null) {
      return;
    }
    Bar bar = step.piece().bar();
    String mark = mark(bar, name(performance, step.piece()));
    add(
        "entrance",
        performance,
        step.piece(),
        "Entrance at bar "
            + name(performance, step.piece())
            + mark
            + " after "
            + rest.bars()
            + " bars' rest"
            + (rest.count().size() > 1 ? " (" + String.join(", ", rest.count()) + ")" : ""),
        Optional.empty());
  }

  private void add(
      String kind, Performance performance, Piece piece, String text, Optional<Integer> fromPage) {
    if (seen.add(kind + piece.bar().id() + piece.offset() + text)) {
      found.add(
          new LookAhead(
              kind,
              performance.number().label(),
              piece.bar().page(),
              piece.bar().id(),
              text,
              fromPage));
    }
  }

  private static String figures(Meter meter) {
    return meter.beats() + "/" + meter.unit();
  }

  static String name(Performance performance, Piece piece) {
    return piece
        .inserted()
        .orElseGet(
            () ->
                performance
                    .number()
                    .nameAt(Math.min(piece.slot(), performance.number().slots() - 1)));
  }
}
