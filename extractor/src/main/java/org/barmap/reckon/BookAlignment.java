package org.barmap.reckon;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Origin;
import org.barmap.map.RehearsalMark;

/**
 * Compares two maps of different parts of one show and lists what can't both be right.
 *
 * <p>Every number is unfolded into single bars, so parts that break their rests differently are no
 * contradiction; the bars are aligned by marks, meters, repeats and jumps.
 */
public final class BookAlignment {

  /**
   * One contradiction.
   *
   * @param number label of the musical number
   * @param kind {@code bars}, {@code mark}, {@code meter}, {@code repeat} or {@code number}
   * @param text one plain sentence
   * @param barInA id of the entry in the first map, if there is one
   * @param barInB id of the entry in the second map, if there is one
   * @param culprit {@code A} or {@code B}, the one more likely wrong; empty when it could be either
   */
  public record Difference(
      String number,
      String kind,
      String text,
      Optional<String> barInA,
      Optional<String> barInB,
      Optional<String> culprit) {}

  private static final double GAP = 3;

  private BookAlignment() {}

  /** Compares number by number, matched by label. */
  public static List<Difference> compare(BarMap a, BarMap b) {
    List<Difference> out = new ArrayList<>();
    Map<String, MusicalNumber> inB = new HashMap<>();
    b.numbers().forEach(n -> inB.putIfAbsent(n.label(), n));
    for (MusicalNumber n : a.numbers()) {
      MusicalNumber other = inB.remove(n.label());
      if (other == null) {
        out.add(missing(n, "B"));
      } else if (!n.tacet() && !other.tacet()) {
        compare(n.label(), bars(a, n), bars(b, other), out);
      }
    }
    b.numbers().stream()
        .filter(n -> inB.containsKey(n.label()))
        .forEach(n -> out.add(missing(n, "A")));
    return List.copyOf(out);
  }

  private static Difference missing(MusicalNumber n, String where) {
    return new Difference(
        n.label(),
        "number",
        "No. " + n.label() + " is not in " + where + ".",
        where.equals("B") ? n.firstBar() : Optional.empty(),
        where.equals("A") ? n.firstBar() : Optional.empty(),
        Optional.empty());
  }

  /** One single bar: the entry it is in, and how far into it. */
  private record Single(Bar bar, int offset) {
    Optional<String> mark() {
      return offset == 0 ? bar.rehearsal().map(RehearsalMark::text) : Optional.empty();
    }

    boolean startsRepeat() {
      return offset == 0 && bar.startBarline() == Barline.REPEAT_START;
    }

    boolean endsRepeat() {
      return offset == bar.count() - 1
          && (bar.endBarline() == Barline.REPEAT_END || bar.endBarline() == Barline.REPEAT_BOTH);
    }

    boolean has(Navigation sign) {
      return offset == 0 && bar.has(sign);
    }

    int number() {
      return bar.number() + offset;
    }
  }

  private static List<Single> bars(BarMap map, MusicalNumber number) {
    List<Single> out = new ArrayList<>();
    for (Bar bar : map.barsOf(number)) {
      for (int i = 0; i < bar.count(); i++) {
        out.add(new Single(bar, i));
      }
    }
    return out;
  }

  private static void compare(String label, List<Single> a, List<Single> b, List<Difference> out) {
    List<Aligner.Taken> pairs =
        Aligner.align(
            a.size(),
            b.size(),
            i -> 1,
            GAP,
            (i, from, to) -> to == from ? GAP : cost(a.get(i), b.get(from)));
    int next = 0;
    for (int i = 0; i < a.size(); i++) {
      Aligner.Taken t = pairs.get(i);
      if (t.size() == 1) {
        if (t.from() > next) {
          surplus(label, "B", b.subList(next, t.from()), a, b, out);
        }
        next = t.to();
        pair(label, a.get(i), b.get(t.from()), out);
      } else {
        int last = i;
        while (last + 1 < a.size() && pairs.get(last + 1).size() == 0) {
          last++;
        }
        surplus(label, "A", a.subList(i, last + 1), a, b, out);
        i = last;
      }
    }
    if (next < b.size()) {
      surplus(label, "B", b.subList(next, b.size()), a, b, out);
    }
  }

  private static double cost(Single a, Single b) {
    double cost = 0;
    if (a.mark().isPresent() && b.mark().isPresent()) {
      cost += a.mark().equals(b.mark()) ? -3 : 4;
    } else if (a.mark().isPresent() || b.mark().isPresent()) {
      cost += 2.5;
    }
    Optional<Meter> x = a.bar().meter();
    Optional<Meter> y = b.bar().meter();
    if (x.isPresent() && y.isPresent()) {
      cost += x.get().sameAs(y.get()) ? 0 : 1.5;
    }
    cost += a.startsRepeat() == b.startsRepeat() ? 0 : 1;
    cost += a.endsRepeat() == b.endsRepeat() ? 0 : 1;
    for (Navigation sign : List.of(Navigation.SEGNO, Navigation.CODA)) {
      cost += a.has(sign) == b.has(sign) ? 0 : 1;
    }
    return cost;
  }

  private static void surplus(
      String label,
      String has,
      List<Single> extra,
      List<Single> a,
      List<Single> b,
      List<Difference> out) {
    Single first = extra.get(0);
    int n = extra.size();
    String other = has.equals("A") ? "B" : "A";
    String text =
        has
            + " has "
            + (n == 1 ? "one bar" : n + " bars")
            + " more than "
            + other
            + " about bar "
            + first.number()
            + after(extra, has.equals("A") ? a : b)
            + ": a barline or a rest is wrong in one of them.";
    double sureHas = extra.stream().mapToDouble(s -> sure(s.bar())).min().orElse(1);
    double sureOther =
        (has.equals("A") ? b : a)
            .stream()
                .filter(s -> Math.abs(s.number() - first.number()) <= 8)
                .mapToDouble(s -> sure(s.bar()))
                .min()
                .orElse(1);
    Optional<String> id = Optional.of(first.bar().id());
    out.add(
        new Difference(
            label,
            "bars",
            text,
            has.equals("A") ? id : Optional.empty(),
            has.equals("B") ? id : Optional.empty(),
            culprit(has.equals("A") ? sureHas : sureOther, has.equals("A") ? sureOther : sureHas)));
  }

  /** Says which mark the place comes after. */
  private static String after(List<Single> extra, List<Single> own) {
    int at = own.indexOf(extra.get(0));
    for (int i = at; i >= 0; i--) {
      if (own.get(i).mark().isPresent()) {
        return " (after " + own.get(i).mark().get() + ")";
      }
    }
    return "";
  }

  private static void pair(String label, Single a, Single b, List<Difference> out) {
    if (a.mark().isPresent() && b.mark().isPresent() && !a.mark().equals(b.mark())) {
      out.add(
          different(
              label,
              "mark",
              "Bar "
                  + a.number()
                  + " has mark "
                  + a.mark().get()
                  + " in A, "
                  + b.mark().get()
                  + " in B.",
              a,
              b));
    }
    boolean printed =
        (a.offset() == 0 && a.bar().meter().filter(Meter::printed).isPresent())
            || (b.offset() == 0 && b.bar().meter().filter(Meter::printed).isPresent());
    Optional<Meter> x = a.bar().meter();
    Optional<Meter> y = b.bar().meter();
    if (printed && x.isPresent() && y.isPresent() && !x.get().sameAs(y.get())) {
      out.add(
          different(
              label,
              "meter",
              "Bar "
                  + a.number()
                  + " is in "
                  + said(x.get())
                  + " in A, in "
                  + said(y.get())
                  + " in B.",
              a,
              b));
    }
    if (a.endsRepeat() != b.endsRepeat() || a.startsRepeat() != b.startsRepeat()) {
      String has = a.endsRepeat() || a.startsRepeat() ? "A" : "B";
      out.add(
          different(
              label,
              "repeat",
              "Bar " + a.number() + " has a repeat sign only in " + has + ".",
              a,
              b));
    }
  }

  private static String said(Meter m) {
    return m.beats() + "/" + m.unit();
  }

  private static Difference different(String label, String kind, String text, Single a, Single b) {
    return new Difference(
        label,
        kind,
        text,
        Optional.of(a.bar().id()),
        Optional.of(b.bar().id()),
        culprit(sure(a.bar()), sure(b.bar())));
  }

  /** A person's word counts as sure. */
  private static double sure(Bar bar) {
    boolean person = bar.origin() == Origin.VERIFIED || bar.origin() == Origin.CORRECTED;
    return person ? 1 : bar.confidence();
  }

  private static Optional<String> culprit(double a, double b) {
    if (Math.abs(a - b) < 0.02) {
      return Optional.empty();
    }
    return Optional.of(a < b ? "A" : "B");
  }
}
