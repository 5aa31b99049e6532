package org.barmap.sign.rule;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.net.BeamSearch;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.set.TextSettings;
import org.barmap.sign.strip.StripImage;

/** Corrects the kind of a sign by what it says: the network tells marks from words by size. */
public final class KindByText {

  private static final TextSettings.Kinds SET = SignSettings.STANDARD.text().kinds();

  private KindByText() {}

  /** A kind and the readings that go with it. */
  public record Text(SignKind kind, List<Reading> readings) {}

  /**
   * Settles kind and readings.
   *
   * @param sign what the network saw
   * @param own readings allowed for its kind
   * @param mark readings allowed for a rehearsal mark
   * @param free readings of any text
   */
  public static Text settle(
      StripImage strip, RawSign sign, List<Reading> own, List<Reading> mark, List<Reading> free) {
    SignKind kind = sign.kind();
    String text = free.isEmpty() ? "" : free.get(0).text();
    double p = free.isEmpty() ? 0 : free.get(0).probability();
    boolean framed = Surround.around(strip, sign) != Enclosure.NONE;
    Optional<SignKind> goal =
        framed || figures(free) >= SET.clear() ? Optional.empty() : goal(strip, sign, text, p);
    if (goal.isPresent()) {
      return new Text(goal.get(), List.of());
    }
    if (kind == SignKind.WORD || fit(own) >= SET.fits()) {
      return new Text(kind, own);
    }
    if (framed && fit(mark) >= SET.sure()) {
      return new Text(SignKind.REHEARSAL, mark);
    }
    long letters = text.chars().filter(Character::isLetter).count();
    boolean words = letters >= SET.letters() && !framed && p >= SET.sure();
    return words ? new Text(SignKind.WORD, free) : new Text(kind, own);
  }

  /** How surely a text is a number of several figures, whichever: a segno or coda is one sign. */
  private static double figures(List<Reading> free) {
    return free.stream()
        .filter(r -> r.text().matches("\\d{2,}"))
        .mapToDouble(Reading::probability)
        .sum();
  }

  /** A segno or a coda; some faces draw the coda upright, as a cut C is drawn. */
  private static Optional<SignKind> goal(StripImage strip, RawSign sign, String text, double p) {
    if (text.length() > SET.letters() || (p >= SET.clear() && !text.matches("⊕|§|C\\|"))) {
      return Optional.empty();
    }
    if (text.equals("⊕") || text.matches(".\\|")) {
      return Optional.of(SignKind.CODA);
    }
    if (text.equals("§") || (text.matches("[8S]") && p < SET.unclear())) {
      return Optional.of(SignKind.SEGNO);
    }
    return SignShape.of(strip, sign);
  }

  /** Tells whether a meter is believed: what reads like no meter at all is a rest or a note. */
  public static boolean isBelieved(RawSign s, List<Reading> readings) {
    if (s.kind() != SignKind.METER) {
      return true;
    }
    double least = s.probability() < SET.faint() ? SET.sureMeter() : SET.meter();
    boolean sure = !readings.isEmpty() && readings.get(0).probability() > least;
    return fit(readings) > least
        && read(readings) >= SET.read()
        && (s.probability() >= SET.faint() || sure);
  }

  /** How surely the likeliest meter was read; C and its cut are told apart by the stroke. */
  private static double read(List<Reading> readings) {
    double common =
        readings.stream()
            .filter(r -> r.text().startsWith("C"))
            .mapToDouble(Reading::probability)
            .sum();
    return Math.max(common, readings.isEmpty() ? 0 : readings.get(0).probability());
  }

  /** How much of what was read the kind allows, 0 to 1; {@link BeamSearch} halves the rest. */
  static double fit(List<Reading> readings) {
    return Math.max(0, 2 * readings.stream().mapToDouble(Reading::probability).sum() - 1);
  }
}
