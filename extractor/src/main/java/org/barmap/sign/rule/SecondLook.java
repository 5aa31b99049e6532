package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.Ink;
import org.barmap.sign.strip.StripImage;

/** Cheap unlearned looks at what the networks said, and what signs say about each other. */
public final class SecondLook {

  /** A multi-bar rest without a thick bar in its box keeps this share of its probability. */
  private static final double NO_BAR = 0.3;

  /** A numeral and its rest stand at most this far apart along the staff, spaces. */
  private static final double TOGETHER = 2.5;

  /** A numeral over 1 above what was taken for a whole-bar rest says it is a block rest. */
  private static final double NUMERAL_RULES = 0.85;

  /** Some row of a mark is dark over more than this share of its width. */
  private static final double LEAST_INK = 0.08;

  private SecondLook() {}

  /**
   * Tells whether a mark is printed on this side: what shows through from the back is pale all
   * over.
   */
  public static boolean isInked(StripImage strip, RawSign s) {
    if (s.kind() != SignKind.REHEARSAL) {
      return true;
    }
    double most = 0;
    for (int v = (int) Math.ceil(s.y0()); v < s.y1(); v++) {
      most = Math.max(most, Ink.row(strip, v, s.x0(), s.x1()));
    }
    return most > LEAST_INK;
  }

  /** Lowers a multi-bar rest that has no thick bar. */
  public static RawSign thickBar(StripImage strip, RawSign s) {
    if (s.kind() != SignKind.MULTI_REST) {
      return s;
    }
    double inset = 0.1 * s.width();
    int rows = 0;
    int longest = 0;
    int run = 0;
    for (int v = (int) s.y0(); v <= s.y1(); v++) {
      boolean dark = Ink.row(strip, v, s.x0() + inset, s.x1() - inset) > 0.8;
      run = dark ? run + 1 : 0;
      rows += dark ? 1 : 0;
      longest = Math.max(longest, run);
    }
    boolean bar = longest >= 3 && rows >= 3;
    return bar
        ? s
        : new RawSign(
            s.kind(), s.x0(), s.y0(), s.x1(), s.y1(), s.probability() * NO_BAR, s.readings());
  }

  /** Tells C from cut C by the stroke down its middle. */
  public static List<Reading> cut(StripImage strip, RawSign s, List<Reading> readings) {
    boolean common =
        s.kind() == SignKind.METER
            && !readings.isEmpty()
            && (readings.get(0).text().equals("C") || readings.get(0).text().equals("C|"));
    if (!common) {
      return readings;
    }
    double stroke = 0;
    for (int u = (int) Math.round(s.x0() + 0.3 * s.width()); u <= s.x0() + 0.7 * s.width(); u++) {
      stroke = Math.max(stroke, Ink.column(strip, u, s.y0() + 1, s.y1() - 1));
    }
    double cut = stroke > 0.85 ? 0.9 : stroke < 0.6 ? 0.1 : 0.5;
    double plain = 0;
    double barred = 0;
    for (Reading r : readings) {
      plain += r.text().equals("C") ? r.probability() : 0;
      barred += r.text().equals("C|") ? r.probability() : 0;
    }
    double both = plain + barred;
    double weighed = Math.max(1e-3, barred) * cut;
    double p = weighed / (weighed + Math.max(1e-3, plain) * (1 - cut));
    List<Reading> all = new ArrayList<>();
    all.add(new Reading("C", both * (1 - p)));
    all.add(new Reading("C|", both * p));
    readings.stream().filter(r -> !r.text().startsWith("C")).forEach(all::add);
    all.sort(Comparator.comparingDouble((Reading r) -> -r.probability()));
    return List.copyOf(all);
  }

  /** Lets a rest of several bars and the numeral over it support each other. */
  public static List<Sign> support(List<Sign> signs) {
    List<Sign> all = new ArrayList<>();
    for (Sign s : signs) {
      switch (s.kind()) {
        case MULTI_REST, BLOCK_REST -> all.add(probability(s, either(s, numeral(signs, s))));
        case COUNT -> all.add(probability(s, either(s, rest(signs, s))));
        default -> all.add(s);
      }
      boolean whole = s.kind() == SignKind.REST;
      double several = whole ? several(signs, s) : 0;
      if (several >= 0.5) {
        all.add(
            new Sign(
                SignKind.BLOCK_REST,
                s.from(),
                s.to(),
                s.top(),
                s.bottom(),
                s.outline(),
                several * NUMERAL_RULES,
                List.of()));
      }
    }
    return all;
  }

  private static double either(Sign s, double other) {
    return 1 - (1 - s.probability()) * (1 - 0.9 * other);
  }

  private static Sign probability(Sign s, double p) {
    return new Sign(s.kind(), s.from(), s.to(), s.top(), s.bottom(), s.outline(), p, s.readings());
  }

  /** How likely a numeral of several bars stands over a sign. */
  private static double numeral(List<Sign> signs, Sign at) {
    return signs.stream()
        .filter(n -> n.kind() == SignKind.COUNT && near(n, at))
        .mapToDouble(n -> n.probability() * overOne(n))
        .max()
        .orElse(0);
  }

  /** The same for a whole-bar rest that no other rest competes with. */
  private static double several(List<Sign> signs, Sign rest) {
    boolean taken =
        signs.stream()
            .anyMatch(
                b ->
                    (b.kind() == SignKind.BLOCK_REST || b.kind() == SignKind.MULTI_REST)
                        && near(b, rest));
    return taken ? 0 : numeral(signs, rest);
  }

  private static double rest(List<Sign> signs, Sign numeral) {
    return signs.stream()
        .filter(r -> r.kind() == SignKind.MULTI_REST || r.kind() == SignKind.BLOCK_REST)
        .filter(r -> near(numeral, r))
        .mapToDouble(Sign::probability)
        .max()
        .orElse(0);
  }

  private static boolean near(Sign a, Sign b) {
    double gap = Math.max(a.from(), b.from()) - Math.min(a.to(), b.to());
    return Math.abs(a.at() - b.at()) < TOGETHER || gap < -0.8 * (a.to() - a.from());
  }

  private static double overOne(Sign numeral) {
    return numeral.readings().stream()
        .filter(r -> !r.text().equals("1"))
        .mapToDouble(Reading::probability)
        .sum();
  }
}
