package org.barmap.plan.turn;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.Word;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.order.Following;
import org.barmap.plan.pace.Gap;

/**
 * What is written at the foot of a page that is turned where it ends. Decided here once, for the
 * turn, the pencil list and the slips (common practice): V.S. where there is hardly time, Time
 * where there is; nothing where the print says it, where another mark says when to turn, and where
 * nobody knows.
 */
public enum TurnMark {
  /** Volti subito. */
  VS("V.S.", "(?:V\\.?\\s?S\\.?|volti(?: subito)?|turn (?:quickly|fast|at once))[.!)]*"),
  /** There is time. */
  TIME("Time", "\\(?(?:(?:there is )?time|plenty of time|turn)[.!)]*");

  private final String word;
  private final Pattern print;

  TurnMark(String word, String print) {
    this.word = word;
    this.print = Pattern.compile(print, Pattern.CASE_INSENSITIVE);
  }

  /** Returns it as it is written. */
  @JsonValue
  public String word() {
    return word;
  }

  /** Returns the mark at a turn within a number. */
  static Optional<TurnMark> within(
      Verdict verdict, Advice.Kind chosen, Optional<Gap> gap, List<Word> printed) {
    if (chosen != Advice.Kind.TURN_HERE && chosen != Advice.Kind.LEAVE_OUT) {
      return Optional.empty();
    }
    boolean likely = gap.filter(g -> g.held() || Judge.isLikely(g, 2)).isPresent();
    return switch (verdict) {
      case TIME -> unlessPrinted(TIME, printed);
      case QUICK, NONE -> unlessPrinted(VS, printed);
      case UNKNOWN -> likely ? Optional.empty() : unlessPrinted(VS, printed);
    };
  }

  /**
   * Returns the mark at a turn between two numbers: on a cue it is hurried in any case; that there
   * is time between numbers goes without a mark.
   */
  static Optional<TurnMark> between(Verdict verdict, Following following, List<Word> printed) {
    boolean soon = verdict == Verdict.QUICK || verdict == Verdict.NONE;
    boolean onCue = verdict == Verdict.UNKNOWN && following.link() == Link.SEGUE;
    return soon || onCue ? unlessPrinted(VS, printed) : Optional.empty();
  }

  private static Optional<TurnMark> unlessPrinted(TurnMark mark, List<Word> printed) {
    boolean stands = printed.stream().anyMatch(w -> mark.print.matcher(w.text().strip()).matches());
    return stands ? Optional.empty() : Optional.of(mark);
  }
}
