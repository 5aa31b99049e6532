package org.barmap.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.term.Figures;

/** Says what stands in one line of the run sheet. */
final class RunLine {
  /** Nobody takes a bow to these. */
  private static final Pattern PLUCKED =
      Pattern.compile("electric|guitar|synth|ukulele|banjo|mandolin", Pattern.CASE_INSENSITIVE);

  private RunLine() {}

  /** How it begins: "6/8 in 2, q. = 120". */
  static String opening(RunSheet line) {
    return line.opening().map(RunLine::opening).orElse("");
  }

  private static String opening(RunSheet.Opening o) {
    List<String> parts = new ArrayList<>();
    o.meter().ifPresent(m -> parts.add(o.beats() > 0 ? m + " in " + o.beats() : m));
    parts.add(o.perMinute().map(p -> tempo(o, p)).orElse("tempo not known"));
    return String.join(", ", parts);
  }

  /** The tempo in the beats the director shows. */
  private static String tempo(RunSheet.Opening o, double quarters) {
    double beat =
        o.meter().filter(m -> o.beats() > 0).map(m -> quarters(m) / o.beats()).orElse(1.0);
    String note =
        beat == 0.5
            ? "\u266A"
            : beat == 1.5 ? "\u2669." : beat == 2 ? "h" : beat == 3 ? "h." : "\u2669";
    double shown =
        beat == 0.5 || beat == 1.5 || beat == 2 || beat == 3 ? quarters / beat : quarters;
    return note + " = " + Figures.tempo(shown, "ca. ");
  }

  private static double quarters(String meter) {
    String[] figures = meter.split("/", 2);
    return Integer.parseInt(figures[0]) * 4.0 / Integer.parseInt(figures[1]);
  }

  /** How long it is: "3:20 + vamp", "not known". */
  static String length(RunSheet line) {
    String plus = line.plus().isEmpty() ? "" : " + " + kinds(line.plus());
    if (line.seconds().isPresent()) {
      return Says.minutes(line.seconds().get()) + plus;
    }
    return line.known()
        .map(
            k ->
                Says.minutes(k.seconds())
                    + " + "
                    + Says.bars(k.barsWithout())
                    + " without a tempo"
                    + plus)
        .orElse("length not known" + plus);
  }

  /** Returns what kinds of things there are and how many of each: "2 vamps, 1 hold". */
  static String kinds(List<String> plus) {
    Map<String, Integer> many = new LinkedHashMap<>();
    plus.forEach(p -> many.merge(p.replaceAll(" .*", ""), 1, Integer::sum));
    return String.join(
        ", ", many.entrySet().stream().map(e -> said(e.getKey(), e.getValue())).toList());
  }

  private static String said(String kind, int many) {
    if (many == 1) {
      return kind.equals("G.P.") ? kind : "a " + kind;
    }
    return many
        + " "
        + (kind.endsWith("y") ? kind.substring(0, kind.length() - 1) + "ies" : kind + "s");
  }

  /** What is in hand, and when the first note is. */
  static String entrance(RunSheet line, Names names) {
    return entrance(line, e -> names.both(line.number(), e));
  }

  /** The same in this part's bars alone. */
  static String entrance(RunSheet line) {
    return entrance(line, e -> e);
  }

  private static String entrance(RunSheet line, UnaryOperator<String> bars) {
    List<String> parts = new ArrayList<>();
    String hands = hands(line);
    if (!hands.isEmpty()) {
      parts.add(hands);
    }
    line.entrance()
        .map(bars)
        .ifPresent(
            e ->
                parts.add(
                    line.entranceAfter().filter(n -> n > 0).isPresent()
                        ? "in at " + e + " after " + Says.bars(line.entranceAfter().orElse(0))
                        : "in at once, " + e));
    line.key().ifPresent(parts::add);
    return String.join("  \u00B7  ", parts);
  }

  private static String hands(RunSheet line) {
    List<String> held = new ArrayList<>();
    line.opening()
        .ifPresent(
            o -> {
              o.instrument().ifPresent(held::add);
              if (o.instrument().filter(i -> PLUCKED.matcher(i).find()).isEmpty()) {
                o.bow().ifPresent(b -> held.add(b.equals("pizz") ? "pizz." : b));
              }
              o.mute().filter(m -> !m.equals("mute off")).ifPresent(held::add);
            });
    List<String> later =
        line.instruments().stream()
            .filter(
                i ->
                    line.opening()
                        .flatMap(RunSheet.Opening::instrument)
                        .filter(i::equals)
                        .isEmpty())
            .toList();
    String first = String.join(", ", held);
    return later.isEmpty()
        ? first
        : (first.isEmpty() ? "" : first + ", then ") + String.join(", then ", later);
  }

  /** Vamps with their cues and exits, and what is out. */
  static List<String> more(RunSheet line, Names names) {
    List<String> more = new ArrayList<>();
    if (line.track()) {
      more.add("TRACK: nothing waits, every count is fixed");
    }
    for (RunSheet.Open open : line.vamps()) {
      more.add(
          open.kind().toUpperCase(Locale.ROOT)
              + " "
              + names.both(line.number(), open.bars())
              + open.pass().map(p -> " " + p).orElse("")
              + open.exit().map(e -> ", " + exit(e)).orElse("")
              + open.cue().map(c -> ", till " + c).orElse(""));
    }
    if (!line.cuts().isEmpty()) {
      more.add(
          "CUT "
              + line.cuts().stream()
                  .map(c -> names.both(line.number(), c))
                  .collect(Collectors.joining(", ")));
    }
    return more;
  }

  private static String exit(String word) {
    return switch (word) {
      case "any-time" -> "out any time";
      case "end-of-pass" -> "out at the end of a pass";
      default -> "out " + word;
    };
  }
}
