package org.barmap.plan.change.term;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;

/**
 * A metric modulation, "♩ = ♩.": a note of the bars before lasts as long as another one from here
 * on.
 *
 * @param left quarters of the note on the left
 * @param right quarters of the note on the right
 * @param turned whether the words say that the new one is on the left
 */
public record NoteRelation(double left, double right, boolean turned) {
  private static final Pattern EQUAL =
      phrase(
          "(?<before>[^\\n=]*?)"
              + Metronome.NOTE
              + "\\s*(?<between>[\\p{L}. ]*?)\\s*=\\s*(?<old>[\\p{L}. ]*?\\s)??"
              + Metronome.NOTE
              + "(?![\\p{L}\\p{N}])(?<after>[^\\n=]*)");

  /** Groups of the two notes in {@link #EQUAL}, three each. */
  private static final int LEFT = 2;

  private static final int RIGHT = 7;

  private static final Pattern OLD =
      phrase("\\b(?:old|previous|preceding|prec\\w*|pr\\u00E9c\\w*|vorher\\w*|alte[sr]?)\\b");
  private static final Pattern NEW =
      Pattern.compile("\\b(?:new|nuov\\w*|neue[sr]?|nouv\\w*)\\b", Pattern.CASE_INSENSITIVE);

  /** Returns the relation words state; empty where there is none. */
  static Optional<NoteRelation> read(String words) {
    Matcher equal = EQUAL.matcher(Metronome.composed(words));
    if (!equal.find()) {
      return Optional.empty();
    }
    double first =
        Metronome.noteQuarters(equal.group(LEFT), equal.group(LEFT + 1), equal.group(LEFT + 2));
    double second =
        Metronome.noteQuarters(equal.group(RIGHT), equal.group(RIGHT + 1), equal.group(RIGHT + 2));
    String ahead = equal.group("before") + " " + equal.group("between");
    String behind =
        (equal.group("old") == null ? "" : equal.group("old")) + " " + equal.group("after");
    boolean turned = NEW.matcher(ahead).find() || OLD.matcher(behind).find();
    return Optional.of(new NoteRelation(first, second, turned));
  }

  /**
   * Returns by how much quarters are faster than before. The note before stands on the left unless
   * the words say otherwise, or the dotted note fits the other one of the two meters: it is the
   * beat of 6/8 and its like.
   */
  public double factor(Optional<Meter> before, Optional<Meter> now) {
    boolean leftIsNew = turned || (!oldFits(before, now) && newFits(before, now));
    return leftIsNew ? left / right : right / left;
  }

  private boolean oldFits(Optional<Meter> before, Optional<Meter> now) {
    return fits(left, before) && fits(right, now);
  }

  private boolean newFits(Optional<Meter> before, Optional<Meter> now) {
    return fits(right, before) && fits(left, now);
  }

  private static boolean fits(double note, Optional<Meter> meter) {
    return meter.filter(m -> Math.abs(beat(m) - note) < Figures.SAME).isPresent();
  }

  private static double beat(Meter meter) {
    return Metronome.quarters(NoteValues.beatOf(Optional.of(meter)));
  }
}
