package org.barmap.reckon.compare;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Origin;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Severity;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.compare.BookAlignment.Difference;
import org.barmap.reckon.set.CompareSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.write.FindingWriter;

/** Compares one musical number as two parts have it. */
final class NumberComparison {

  private static final CompareSettings.Certainty SET =
      ReckonSettings.STANDARD.compare().certainty();

  /**
   * One single bar.
   *
   * @param bar the entry it is in
   * @param offset how far into it
   * @param sure how sure it is
   */
  record Single(Bar bar, int offset, double sure) {
    Optional<String> mark() {
      return offset == 0 ? bar.rehearsal().map(RehearsalMark::text) : Optional.empty();
    }

    boolean startsRepeat() {
      return offset == 0 && bar.startBarline() == Barline.REPEAT_START;
    }

    boolean endsRepeat() {
      return offset == bar.count() - 1 && bar.endBarline().endsRepeat();
    }

    boolean has(Navigation sign) {
      return offset == 0 && bar.has(sign);
    }

    int number() {
      return bar.number() + offset;
    }

    /** Tells whether the print confirms its number. */
    boolean isPrinted() {
      return offset == 0
          && bar.evidence().map(Evidence::numbers).orElse(List.of()).stream()
              .limit(1)
              .anyMatch(r -> Marks.number(r.text()) == bar.number());
    }
  }

  private final String label;
  private final List<String> names;
  private final List<Single> a;
  private final List<Single> b;
  private final List<Difference> out = new ArrayList<>();

  private NumberComparison(String label, List<String> names, List<Single> a, List<Single> b) {
    this.label = label;
    this.names = names;
    this.a = a;
    this.b = b;
  }

  /** Compares number {@code x} of map {@code a} with number {@code y} of map {@code b}. */
  static List<Difference> compare(
      String label, List<String> names, BarMap a, MusicalNumber x, BarMap b, MusicalNumber y) {
    NumberComparison c = new NumberComparison(label, names, bars(a, x), bars(b, y));
    c.run();
    return c.out;
  }

  private static List<Single> bars(BarMap map, MusicalNumber number) {
    Set<String> doubted = new HashSet<>();
    for (Finding f : map.findings()) {
      if (f.severity() != Severity.INFO) {
        f.bar().ifPresent(doubted::add);
      }
    }
    List<Single> out = new ArrayList<>();
    for (Bar bar : map.barsOf(number)) {
      for (int i = 0; i < bar.count(); i++) {
        out.add(new Single(bar, i, sure(bar, doubted)));
      }
    }
    return out;
  }

  /** A person's word counts as sure. */
  private static double sure(Bar bar, Set<String> doubted) {
    boolean person = bar.origin() == Origin.VERIFIED || bar.origin() == Origin.CORRECTED;
    return person ? 1 : bar.confidence() * (doubted.contains(bar.id()) ? SET.doubted() : 1);
  }

  private void run() {
    List<Aligner.Taken> taken = Aligner.align(a.size(), b.size(), new SingleCosts(a, b));
    if (taken.isEmpty() && !a.isEmpty()) {
      surplus(0, a.size(), 0, b.size());
      return;
    }
    int from = 0;
    int at = 0;
    for (int i = 0; i <= a.size(); i++) {
      boolean end = i == a.size();
      if (end || taken.get(i).size() > 0) {
        int to = end ? b.size() : taken.get(i).from();
        if (i > from || to > at) {
          surplus(from, i, at, to);
        }
        from = i + 1;
        at = to + 1;
        if (!end) {
          pair(a.get(i), b.get(to));
        }
      }
    }
  }

  /** Bars without a partner: {@code from} to {@code to} of the first, {@code at} to {@code end}. */
  private void surplus(int from, int to, int at, int end) {
    int more = (to - from) - (end - at);
    boolean first = more >= 0;
    List<Single> own = first ? a : b;
    int start = first ? from : at;
    int near = Math.min(start, own.size() - 1);
    if (near < 0) {
      return;
    }
    String place = " about bar " + own.get(near).number() + after(own, near);
    String text =
        more == 0
            ? "From" + place.replaceFirst(" about", "") + " the two have other bars."
            : cap(names.get(first ? 0 : 1))
                + " has "
                + FindingWriter.bars(Math.abs(more))
                + " more than "
                + names.get(first ? 1 : 0)
                + place
                + ": a barline or a rest is wrong in one of them.";
    out.add(
        new Difference(
            label,
            "bars",
            text,
            to > from ? Optional.of(a.get(from).bar().id()) : Optional.empty(),
            end > at ? Optional.of(b.get(at).bar().id()) : Optional.empty(),
            culprit(around(a, from, to), around(b, at, end))));
  }

  /**
   * How sure a part is of the bars among which the cause must be: from the mark before a place to
   * the next one, or some bars around; a printed number that agrees after it speaks for the part.
   */
  private static double around(List<Single> part, int from, int to) {
    int low = from;
    while (low > 0
        && from - low < SET.around()
        && (low >= part.size() || part.get(low).mark().isEmpty())) {
      low--;
    }
    int high = to;
    while (high < part.size() && high - to < SET.around() && part.get(high).mark().isEmpty()) {
      high++;
    }
    double sure = part.subList(low, high).stream().mapToDouble(Single::sure).min().orElse(1);
    for (int i = high; i < Math.min(part.size(), high + SET.around()); i++) {
      if (part.get(i).isPrinted()) {
        return 1 - (1 - sure) * SET.printed();
      }
    }
    return sure;
  }

  /** Says which mark the place comes after. */
  private static String after(List<Single> part, int at) {
    for (int i = at; i >= 0; i--) {
      if (part.get(i).mark().isPresent()) {
        return i == at
            ? ", at mark " + part.get(i).mark().get()
            : ", after mark " + part.get(i).mark().get();
      }
    }
    return "";
  }

  private void pair(Single x, Single y) {
    if (x.mark().isPresent() && y.mark().isPresent() && !x.mark().equals(y.mark())) {
      different("mark", x, y, "mark " + x.mark().get(), "mark " + y.mark().get());
    }
    boolean printed =
        (x.offset() == 0 && x.bar().meter().filter(Meter::printed).isPresent())
            || (y.offset() == 0 && y.bar().meter().filter(Meter::printed).isPresent());
    Optional<Meter> mine = x.bar().meter();
    Optional<Meter> other = y.bar().meter();
    if (printed && mine.isPresent() && other.isPresent() && !mine.get().sameAs(other.get())) {
      different("meter", x, y, said(mine.get()), said(other.get()));
    }
    if (x.startsRepeat() != y.startsRepeat()) {
      different("repeat", x, y, start(x.startsRepeat()), start(y.startsRepeat()));
    }
    if (x.endsRepeat() != y.endsRepeat()) {
      different("repeat", x, y, end(x.endsRepeat()), end(y.endsRepeat()));
    }
  }

  private static String start(boolean there) {
    return there ? "a repeat beginning" : "none";
  }

  private static String end(boolean there) {
    return there ? "a repeat ending" : "none";
  }

  private static String said(Meter m) {
    return m.beats() + "/" + m.unit();
  }

  private void different(String kind, Single x, Single y, String mine, String other) {
    String text =
        "Bar %d has %s in %s, %s in %s."
            .formatted(x.number(), mine, names.get(0), other, names.get(1));
    out.add(
        new Difference(
            label,
            kind,
            text,
            Optional.of(x.bar().id()),
            Optional.of(y.bar().id()),
            culprit(x.sure(), y.sure())));
  }

  private static String cap(String name) {
    return name.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + name.substring(1);
  }

  private static Optional<String> culprit(double x, double y) {
    return Math.abs(x - y) < SET.equal() ? Optional.empty() : Optional.of(x < y ? "A" : "B");
  }
}
