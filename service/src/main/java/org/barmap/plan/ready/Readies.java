package org.barmap.plan.ready;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Word;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Gap;
import org.barmap.plan.order.Performance;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;
import org.barmap.plan.turn.Verdict;

/** Finds the changes of instrument, bow, mute and extension of a show. */
public final class Readies {
  private static final ReadyTimes TIMES = ReadyTimes.USUAL;

  private final double neededSeconds;
  private final List<GetReady> found = new ArrayList<>();
  private Hands now;

  private Readies(String part, double neededSeconds) {
    this.neededSeconds = neededSeconds;
    this.now = Instruments.after(Hands.EMPTY, part);
  }

  /**
   * Returns the changes in the order they come.
   *
   * @param show played numbers in the order of the night
   * @param spans the changes of each number, looked up, in the same order
   * @param part the book's part; where it names an instrument, that one is held first
   * @param neededSeconds what a change of instrument, mute or extension needs
   */
  public static List<GetReady> of(
      List<Performance> show, List<List<Span>> spans, String part, double neededSeconds) {
    Readies readies = new Readies(part, neededSeconds);
    Hands book = readies.now;
    for (int i = 0; i < show.size(); i++) {
      List<Hands> hands = hands(show.get(i), spans.get(i), book);
      readies.number(show.get(i), hands);
      book = hands.isEmpty() ? book : hands.get(hands.size() - 1);
    }
    return List.copyOf(readies.found);
  }

  /** Returns the instrument at each piece of a number, in the order of the book; empty: unknown. */
  public static List<String> instruments(Performance performance, List<Span> spans, String part) {
    return hands(performance, spans, Instruments.after(Hands.EMPTY, part)).stream()
        .map(Hands::instrument)
        .toList();
  }

  /** Returns the bow at each piece of a number, in the order of the book; empty: unknown. */
  public static List<String> bows(Performance performance, List<Span> spans, String part) {
    return hands(performance, spans, Instruments.after(Hands.EMPTY, part)).stream()
        .map(Hands::bow)
        .toList();
  }

  /** Returns the mute at each piece of a number, in the order of the book; empty: unknown. */
  public static List<String> mutes(Performance performance, List<Span> spans, String part) {
    return hands(performance, spans, Instruments.after(Hands.EMPTY, part)).stream()
        .map(Hands::mute)
        .toList();
  }

  /** Returns what is held at each piece, in the order of the book. */
  static List<Hands> hands(Performance performance, List<Span> spans, Hands before) {
    List<Hands> hands = new ArrayList<>();
    Map<Integer, List<Span>> starting = new HashMap<>();
    spans.forEach(s -> starting.computeIfAbsent(s.from(), k -> new ArrayList<>(1)).add(s));
    Hands current = before;
    for (Piece piece : performance.order().pieces()) {
      if (piece.first()) {
        for (Word word : piece.bar().words()) {
          current = Instruments.after(current, word.text());
        }
      }
      if (piece.inserted().isEmpty()) {
        for (Span span : starting.getOrDefault(piece.slot(), List.of())) {
          current = current.after(span.effects().inForce());
        }
      }
      hands.add(current);
    }
    return hands;
  }

  private void number(Performance performance, List<Hands> hands) {
    Timeline line = new Timeline(List.of(performance));
    for (int i = 0; i < line.events().size(); i++) {
      Hands next = hands.get(line.events().get(i).step().index());
      if (!next.equals(now)) {
        differ(line, i, GetReady.Kind.INSTRUMENT, now.instrument(), next.instrument());
        differ(line, i, GetReady.Kind.BOW, now.bow(), next.bow());
        differ(line, i, GetReady.Kind.MUTE, now.mute(), next.mute());
        differ(line, i, GetReady.Kind.EXTENSION, now.extension(), next.extension());
      }
      now = next;
    }
  }

  private void differ(Timeline line, int step, GetReady.Kind kind, String from, String to) {
    boolean first = kind != GetReady.Kind.INSTRUMENT && from.isEmpty() && step == 0;
    if (to.isEmpty() || from.equals(to) || first) {
      return;
    }
    double needed = kind == GetReady.Kind.BOW ? TIMES.bowSeconds() : neededSeconds;
    Timeline.Event event = line.events().get(step);
    double at = line.start(step);
    Optional<Gap> gap = line.gapAt(at);
    boolean betweenNumbers = step == 0 || gap.filter(g -> g.from() <= 0).isPresent();
    Verdict verdict = betweenNumbers ? Verdict.TIME : verdict(gap, needed);
    Optional<Double> seconds =
        betweenNumbers
            ? Optional.empty()
            : gap.isEmpty() ? Optional.of(0.0) : gap.get().length().seconds();
    Optional<Double> beats =
        betweenNumbers
            ? Optional.empty()
            : gap.isEmpty() ? Optional.of(0.0) : gap.get().length().beats();
    Optional<String> earlier =
        verdict == Verdict.TIME ? Optional.empty() : earlier(line, at, needed);
    found.add(
        new GetReady(
            event.piece().bar().id(),
            kind,
            from.isEmpty() ? Optional.empty() : Optional.of(from),
            to,
            event.number(),
            event.step().pass(),
            seconds.map(s -> Figures.tenths(s)),
            beats.map(b -> Figures.hundredths(b)),
            needed,
            verdict,
            earlier,
            text(kind, to, seconds, betweenNumbers, needed, verdict, earlier.isPresent())));
  }

  private static Verdict verdict(Optional<Gap> gap, double needed) {
    if (gap.isEmpty()) {
      return Verdict.NONE;
    }
    if (gap.get().least() + Figures.SAME >= needed) {
      return Verdict.TIME;
    }
    if (!gap.get().measured() && (gap.get().held() || gap.get().to() > gap.get().from())) {
      return Verdict.UNKNOWN;
    }
    return gap.get().least() / needed >= TIMES.quickShare() ? Verdict.QUICK : Verdict.NONE;
  }

  private static Optional<String> earlier(Timeline line, double at, double needed) {
    for (int g = line.gaps().size() - 1; g >= 0; g--) {
      Gap gap = line.gaps().get(g);
      if (gap.to() < at && verdict(Optional.of(gap), needed) == Verdict.TIME) {
        return Optional.of(line.events().get(gap.firstStep()).piece().bar().id());
      }
    }
    return Optional.empty();
  }

  private static String text(
      GetReady.Kind kind,
      String to,
      Optional<Double> seconds,
      boolean betweenNumbers,
      double needed,
      Verdict verdict,
      boolean earlier) {
    String what =
        switch (kind) {
          case INSTRUMENT -> "Take up the " + to;
          case BOW -> to.equals("arco") ? "Take up the bow" : "Bow away, pizz.";
          case MUTE -> to.equals("mute on") ? "Mute on" : "Mute off";
          case EXTENSION -> "Ready the extension";
        };
    if (betweenNumbers) {
      return what + " before the number, or in its opening rest.";
    }
    String time =
        seconds
            .map(s -> String.format(Locale.ROOT, "%.1f s without notes", s))
            .orElse("a rest, how long is not known: no tempo");
    String need = String.format(Locale.ROOT, "%.0f s are needed", needed);
    String advice =
        verdict == Verdict.TIME
            ? ""
            : earlier ? " Prepare it in the earlier rest." : withoutRest(kind, to);
    return what + ": " + time + ", " + need + "." + advice;
  }

  /** What a player does where no rest is long enough. */
  private static String withoutRest(GetReady.Kind kind, String to) {
    return switch (kind) {
      case BOW ->
          to.equals("arco")
              ? " Pluck with the bow in the hand before it."
              : " Keep the bow in the hand.";
      case MUTE, EXTENSION -> " No earlier rest is long enough: leave out what stands around it.";
      case INSTRUMENT -> " No earlier rest is long enough: ask the director what is left out.";
    };
  }
}
