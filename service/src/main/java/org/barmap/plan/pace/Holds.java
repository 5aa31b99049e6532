package org.barmap.plan.pace;

import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;
import org.barmap.map.Word;
import org.barmap.plan.piece.Piece;

/**
 * Stops of unknown length: a fermata, a caesura and a general pause last as long as the director
 * wants (common practice). They come on top of the beats; a bar of general pause has none.
 */
public final class Holds {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;

  /** The words alone: "G.P. follows" speaks of another bar. */
  private static final Pattern PAUSE =
      Pattern.compile(
          "\\(?(?:G\\.\\s?P\\.?|GP|general ?pause|grand pause|pausa generale|silence)"
              + "(?:,? \\(?(?:long|lunga|short|corta|on cue|till .+|until .+)\\)?)?[.!)]*",
          FLAGS);

  private static final Pattern STOP =
      Pattern.compile(
          "\\(?(?:fermata|lunga|corona|caesura|railroad tracks|//|(?:long )?hold(?: (?:till|until|for)"
              + " .+)?)[.!)]*",
          FLAGS);

  private Holds() {}

  /** Tells whether a piece is a bar of general pause. */
  public static boolean isPause(Piece piece) {
    return piece.first() && piece.bar().isRest() && said(piece.bar(), PAUSE);
  }

  /** Tells whether a word says that everybody is silent. */
  public static boolean isPause(String word) {
    return PAUSE.matcher(word.strip()).matches();
  }

  /** Tells whether the music stops in a piece, or right after it, until the director goes on. */
  public static boolean holds(Piece piece) {
    if (isPause(piece)) {
      return true;
    }
    boolean signed =
        piece.bar().has(Navigation.FERMATA)
            || piece.bar().has(Navigation.CAESURA)
            || said(piece.bar(), STOP)
            || said(piece.bar(), PAUSE);
    return signed && piece.last() && !piece.endCut();
  }

  private static boolean said(Bar bar, Pattern words) {
    for (Word word : bar.words()) {
      if (words.matcher(word.text().strip()).matches()) {
        return true;
      }
    }
    return false;
  }

  /**
   * Returns a hold as a length says what comes on top of it, "hold 4"; empty where there is none.
   */
  public static Optional<String> of(Piece piece) {
    return holds(piece) ? Optional.of("hold " + name(piece)) : Optional.empty();
  }

  private static String name(Piece piece) {
    int last = isPause(piece) ? 0 : piece.count() - 1;
    return piece
        .bar()
        .label()
        .orElse(Integer.toString(piece.bar().number() + piece.offset() + last));
  }
}
