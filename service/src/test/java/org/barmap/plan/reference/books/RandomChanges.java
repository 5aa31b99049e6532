package org.barmap.plan.reference.books;

import static org.barmap.plan.reference.books.Feature.*;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.BiPredicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Random changes to a random book. */
final class RandomChanges {

  /** A number and what was drawn of it. */
  record Numbered(String label, List<Drawn> drawn) {}

  /** A single bar and how a player may call it. */
  private record Called(String name, String mark, int beats) {}

  private static final List<String> ORDINALS = List.of("first", "2nd", "third", "4th", "fifth");

  /** How often bars are drawn till some fit. */
  private static final int TRIES = 40;

  private static final List<String> METERS = List.of("3/4", "2/4", "4/4", "6/8", "5/4", "2/2");

  private static final Pattern METER = Pattern.compile("<(\\d+)/\\d+>");

  private final Random random;
  private final Knobs knobs;
  private final List<Numbered> numbers;
  private final int many;
  private final Map<String, Sense> senses = new HashMap<>();
  private List<Called> bars = List.of();
  private Sense sense = new Sense(List.of());
  private int drawnFrom;
  private int drawnTo;

  RandomChanges(Random random, Knobs knobs, List<Numbered> numbers, int many) {
    this.random = random;
    this.knobs = knobs;
    this.numbers = numbers;
    this.many = many;
  }

  List<String> make() {
    List<String> changes = new ArrayList<>();
    for (int k = 0; k < knobs.changes(); k++) {
      Numbered number = numbers.get(random.nextInt(numbers.size()));
      bars = single(number);
      sense = senses.computeIfAbsent(number.label(), n -> new Sense(number.drawn()));
      for (String change : some(number)) {
        changes.add((chance(OFF) ? "off " : "") + change);
        if (chance(TWICE) && !(knobs.sense() > 0 && change.contains(" insert "))) {
          changes.add(change);
        }
      }
    }
    if (also(RESTORES)) {
      changes.stream()
          .filter(c -> c.contains(" cut ") && !c.contains(" beat ") && !c.startsWith("off"))
          .findFirst()
          .ifPresent(c -> changes.add(c.replace(" cut ", " restore ").replaceFirst(" @.*", "")));
    }
    if (many > 1 && chance(REORDERS)) {
      changes.add(order());
    }
    return changes;
  }

  private boolean chance(Feature feature) {
    return random.nextDouble() < knobs.of(feature);
  }

  /** A feature that came later: where it never comes, the changes are those of before. */
  private boolean also(Feature feature) {
    return knobs.of(feature) > 0 && chance(feature);
  }

  private List<String> some(Numbered number) {
    String no = "No." + number.label() + " ";
    List<String> some = new ArrayList<>();
    if (chance(CUTS)) {
      stretch(8, false, sense::cut).ifPresent(s -> some.add(no + "cut " + s));
    }
    if (chance(BEAT_CUTS)) {
      stretch(3, true, sense::beats).ifPresent(s -> some.add(no + "cut " + s));
    }
    if (chance(PASS_CUTS)) {
      stretch(2, false, sense::pass)
          .ifPresent(s -> some.add(no + "cut " + s + (random.nextBoolean() ? " @last" : " @1")));
    }
    if (chance(PLAYS)) {
      stretch(5, false, sense::play)
          .ifPresent(s -> some.add(no + "play " + s + " x" + (1 + random.nextInt(4))));
    }
    if (chance(OPENS)) {
      String kind = random.nextBoolean() ? "vamp " : "safety ";
      stretch(4, false, sense::open).ifPresent(s -> some.add(no + kind + s + exit(kind)));
    }
    if (chance(INSERTS)) {
      int after = place((at, same) -> sense.insert(at));
      some.add(
          no
              + "insert after "
              + said(after)
              + " "
              + (1 + random.nextInt(3))
              + " "
              + bars.get(after).name()
              + "X"
              + (also(METERS_SAID) ? " " + meter() : ""));
    }
    later(number, no, some);
    if (chance(TACETS)) {
      some.add(no + (random.nextBoolean() ? "tacet" : "cut-number"));
    }
    if (chance(SETTINGS)) {
      some.add(no + setting());
    }
    return some;
  }

  private String meter() {
    return METERS.get(random.nextInt(METERS.size()));
  }

  /** The last bars drawn are left behind one of them. */
  private String exit(String kind) {
    if (!kind.equals("vamp ") || !also(EXITS)) {
      return "";
    }
    return " out " + said(drawnFrom + random.nextInt(drawnTo - drawnFrom + 1));
  }

  private void later(Numbered number, String no, List<String> some) {
    if (also(METERS_SAID)) {
      stretch(4, false, sense::meter).ifPresent(s -> some.add(no + "meter " + s + " " + meter()));
    }
    if (also(INSERTS_BEFORE)) {
      int before = random.nextInt(bars.size());
      String name = bars.get(before).name();
      some.add(
          no + "insert before " + said(before) + " " + (1 + random.nextInt(3)) + " " + name + "Y");
    }
    if (also(PASSES_SAID)) {
      String pass = random.nextInt(3) == 0 ? "last" : Integer.toString(1 + random.nextInt(2));
      String kind = random.nextBoolean() ? "only " : "not ";
      stretch(4, false, sense::pass).ifPresent(s -> some.add(no + kind + s + " @" + pass));
    }
    if (also(JUMPS_SAID)) {
      List<Drawn> jumps =
          number.drawn().stream().filter(d -> d.more.matches(".*@d[cs].*")).toList();
      int to = random.nextInt(bars.size());
      int from = Math.min(bars.size() - 1, to + random.nextInt(6));
      some.add(
          no
              + switch (jumps.isEmpty() ? 0 : random.nextInt(3)) {
                case 1 -> "repeats-after-jump";
                case 2 -> {
                  Drawn jump = jumps.get(0);
                  yield "without " + (jump.number + Math.max(0, jump.count - 1)) + jump.label;
                }
                default -> "jump " + said(from) + ".." + said(to);
              });
    }
  }

  private String setting() {
    String at = bars.get(random.nextInt(bars.size())).name();
    return switch (random.nextInt(4)) {
      case 0 ->
          "tempo "
              + at
              + " "
              + (random.nextBoolean() ? "1/4" : "3/8")
              + "="
              + (50 + random.nextInt(120));
      case 1 -> "key " + at + " " + (random.nextInt(9) - 4);
      case 2 -> "instrument " + at + " " + (random.nextBoolean() ? "electric bass" : "tuba");
      default ->
          "beats "
              + stretch(6, false, (from, to) -> true).orElseThrow()
              + " "
              + (1 + random.nextInt(4));
    };
  }

  private String order() {
    List<String> labels = new ArrayList<>();
    for (int k = 1; k <= many; k++) {
      labels.add(Integer.toString(k));
    }
    Collections.shuffle(labels, random);
    boolean some = many > 3 && random.nextInt(3) == 0;
    return "order " + String.join(" ", some ? labels.subList(0, 2) : labels);
  }

  /** Bars that fit, or any where sense is not asked for; none where nothing fits. */
  private Optional<String> stretch(int longest, boolean beats, BiPredicate<Integer, Integer> fits) {
    boolean sensible = sensible();
    for (int k = 0; k < TRIES; k++) {
      int from = random.nextInt(bars.size());
      int to = Math.min(bars.size() - 1, from + random.nextInt(longest));
      if (!sensible || fits.test(from, to)) {
        sense.said(from, to);
        drawnFrom = from;
        drawnTo = to;
        return Optional.of(stretch(from, to, beats));
      }
    }
    return Optional.empty();
  }

  private int place(BiPredicate<Integer, Integer> fits) {
    boolean sensible = sensible();
    int at = random.nextInt(bars.size());
    for (int k = 0; k < TRIES && sensible && !fits.test(at, at); k++) {
      at = random.nextInt(bars.size());
    }
    sense.said(at, at);
    return at;
  }

  private boolean sensible() {
    return knobs.sense() > 0 && random.nextDouble() < knobs.sense();
  }

  private String stretch(int from, int to, boolean beats) {
    String first = said(from);
    String last = said(to);
    if (beats) {
      int fromBeat = 1 + random.nextInt(bars.get(from).beats());
      boolean both = random.nextBoolean();
      first += both || random.nextBoolean() ? " beat " + fromBeat : "";
      int least = from == to ? fromBeat : 1;
      last += both ? " beat " + Math.min(bars.get(to).beats(), least + random.nextInt(3)) : "";
    }
    return first + ".." + last;
  }

  /** One way to say a bar. */
  private String said(int at) {
    if (chance(BAD_ADDRESSES)) {
      return random.nextBoolean() ? "999" : "Q before";
    }
    if (chance(WORDED)) {
      for (int k = Math.max(0, at - 4); k < Math.min(bars.size(), at + 5); k++) {
        String mark = bars.get(k).mark();
        if (!mark.isEmpty()) {
          return worded(mark, at - k);
        }
      }
      return at == bars.size() - 1 ? "end" : bars.get(at).name();
    }
    return bars.get(at).name();
  }

  private String worded(String mark, int steps) {
    if (steps < 0) {
      return -steps + " before " + mark;
    }
    if (steps == 0) {
      return mark;
    }
    boolean ordinal = random.nextBoolean() && steps < ORDINALS.size();
    return ordinal ? ORDINALS.get(steps) + " of " + mark : mark + " + " + steps;
  }

  private static List<Called> single(Numbered number) {
    List<Called> single = new ArrayList<>();
    int beats = 4;
    for (Drawn bar : number.drawn()) {
      Matcher meter = METER.matcher(bar.more);
      beats = meter.find() ? Integer.parseInt(meter.group(1)) : beats;
      for (int k = 0; k < Math.max(1, bar.count); k++) {
        String name = k == 0 ? bar.number + bar.label : Integer.toString(bar.number + k);
        single.add(new Called(name, k == 0 ? bar.mark : "", beats));
      }
    }
    return single;
  }
}
