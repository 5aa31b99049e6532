package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.RestSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.Ink;
import org.barmap.sign.strip.StripImage;

/** Cheap unlearned looks at what the networks said, and what signs say about each other. */
public final class SecondLook {

  private static final RestSettings SET = SignSettings.STANDARD.rest();

  private static final RestSettings.Support SUPPORT = SignSettings.STANDARD.rest().support();

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
    return most > SignSettings.STANDARD.mark().leastInk();
  }

  /** Lowers a multi-bar rest that has no thick bar. */
  public static RawSign thickBar(StripImage strip, RawSign s) {
    if (s.kind() != SignKind.MULTI_REST) {
      return s;
    }
    double inset = SET.thick().inset() * s.width();
    int rows = 0;
    int longest = 0;
    int run = 0;
    for (int v = (int) s.y0(); v <= s.y1(); v++) {
      boolean dark = Ink.row(strip, v, s.x0() + inset, s.x1() - inset) > SET.thick().dark();
      run = dark ? run + 1 : 0;
      rows += dark ? 1 : 0;
      longest = Math.max(longest, run);
    }
    boolean bar = longest >= SET.thick().rows() && rows >= SET.thick().rows();
    return bar ? s : s.likely(s.probability() * SET.thick().kept());
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
    for (int u = (int) Math.round(s.x0() + SET.common().from() * s.width());
        u <= s.x0() + SET.common().to() * s.width();
        u++) {
      stroke = Math.max(stroke, Ink.column(strip, u, s.y0() + 1, s.y1() - 1));
    }
    double cut = cut(stroke);
    double plain = 0;
    double barred = 0;
    for (Reading r : readings) {
      plain += r.text().equals("C") ? r.probability() : 0;
      barred += r.text().equals("C|") ? r.probability() : 0;
    }
    double both = plain + barred;
    double weighed = Math.max(SET.common().least(), barred) * cut;
    double p = weighed / (weighed + Math.max(SET.common().least(), plain) * (1 - cut));
    List<Reading> all = new ArrayList<>();
    all.add(new Reading("C", both * (1 - p)));
    all.add(new Reading("C|", both * p));
    readings.stream().filter(r -> !r.text().startsWith("C")).forEach(all::add);
    all.sort(Comparator.comparingDouble((Reading r) -> -r.probability()));
    return List.copyOf(all);
  }

  /** Returns how likely so much of a stroke makes cut time. */
  private static double cut(double stroke) {
    RestSettings.Common common = SET.common();
    return stroke > common.stroke()
        ? common.cut()
        : stroke < common.none() ? common.plain() : common.unsure();
  }

  /** Lets a rest of several bars and the numeral over it support each other. */
  public static List<Sign> support(List<Sign> signs) {
    List<Sign> all = new ArrayList<>();
    for (Sign s : signs) {
      switch (s.kind()) {
        case MULTI_REST, BLOCK_REST -> all.add(s.likely(either(s, numeral(signs, s))));
        case COUNT -> all.add(s.likely(either(s, rest(signs, s))));
        default -> all.add(s);
      }
      boolean whole = s.kind() == SignKind.REST;
      double several = whole ? several(signs, s) : 0;
      if (several >= SUPPORT.several()) {
        all.add(s.as(SignKind.BLOCK_REST).likely(several * SUPPORT.rules()).saying(List.of()));
      }
    }
    return all;
  }

  private static double either(Sign s, double other) {
    return 1 - (1 - s.probability()) * (1 - SUPPORT.weight() * other);
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

  static boolean near(Sign a, Sign b) {
    double gap = Math.max(a.from(), b.from()) - Math.min(a.to(), b.to());
    return Math.abs(a.at() - b.at()) < SUPPORT.together()
        || gap < -SUPPORT.over() * (a.to() - a.from());
  }

  private static double overOne(Sign numeral) {
    return numeral.readings().stream()
        .filter(r -> !r.text().equals("1"))
        .mapToDouble(Reading::probability)
        .sum();
  }
}
