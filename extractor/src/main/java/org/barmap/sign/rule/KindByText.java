package org.barmap.sign.rule;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.net.BeamSearch;
import org.barmap.sign.strip.StripImage;

/** Corrects the kind of a sign by what it says: the network tells marks from words by size. */
public final class KindByText {

  /** Less of a reading than this fits its kind: the kind is wrong. */
  private static final double FITS = 0.2;

  /** A reading this sure names another kind. */
  private static final double SURE = 0.5;

  /** Figures and letters that are one are read more surely than this. */
  private static final double CLEAR = 0.95;

  /** A segno read as a figure or letter is read less surely than this. */
  private static final double UNCLEAR = 0.85;

  /** Less of a reading than this fits a meter: it is none. */
  private static final double METER = 0.1;

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
    boolean framed = Frame.around(strip, sign) != Enclosure.NONE;
    Optional<SignKind> goal = framed ? Optional.empty() : goal(strip, sign, text, p);
    if (goal.isPresent()) {
      return new Text(goal.get(), List.of());
    }
    if (kind == SignKind.WORD || fit(own) >= FITS) {
      return new Text(kind, own);
    }
    if (framed && fit(mark) >= SURE) {
      return new Text(SignKind.REHEARSAL, mark);
    }
    long letters = text.chars().filter(Character::isLetter).count();
    boolean words = letters >= 2 && !framed && p >= SURE;
    return words ? new Text(SignKind.WORD, free) : new Text(kind, own);
  }

  /** A segno or a coda; some faces draw the coda upright, as a cut C is drawn. */
  private static Optional<SignKind> goal(StripImage strip, RawSign sign, String text, double p) {
    if (text.length() > 2 || (p >= CLEAR && !text.matches("⊕|§|C\\|"))) {
      return Optional.empty();
    }
    if (text.equals("⊕") || text.matches(".\\|")) {
      return Optional.of(SignKind.CODA);
    }
    if (text.equals("§") || (text.matches("[8S]") && p < UNCLEAR)) {
      return Optional.of(SignKind.SEGNO);
    }
    return SignShape.of(strip, sign);
  }

  /** Tells whether a meter is believed: what reads like no meter at all is a rest or a note. */
  public static boolean isBelieved(RawSign s, List<Reading> readings) {
    return s.kind() != SignKind.METER || fit(readings) > METER;
  }

  /** How much of what was read the kind allows, 0 to 1; {@link BeamSearch} halves the rest. */
  static double fit(List<Reading> readings) {
    return Math.max(0, 2 * readings.stream().mapToDouble(Reading::probability).sum() - 1);
  }
}
