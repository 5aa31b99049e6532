package org.barmap.sign.net;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.sign.kind.SignKind;

/** What the text of a kind of sign may look like. */
public enum Grammar {
  /** A count of bars. */
  COUNT("[1-9][0-9]{0,2}", "0123456789"),
  /** A time signature. */
  METER("(?:[1-9]|1[0-9])/(?:1|2|4|8|16|32)|C\\|?", "0123456789/C|"),
  /** A rehearsal mark; small f, m, p and s are dynamics, not marks. */
  REHEARSAL(
      "([A-Za-eg-ln-oq-rt-z])(?i:\\1)?[1-9]?|[1-9][0-9]{0,3}[A-Za-z]?",
      "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"),
  /** A bar number. */
  BAR_NUMBER("[1-9][0-9]{0,3}", "0123456789"),
  /** The numbers of an ending. */
  ENDING("\\(?[1-9]\\.?(?:(?:, ?| ?- ?| )?[1-9]\\.?){0,5}\\)?", "0123456789., -()"),
  /** A key signature: how many sharps or flats; "0" where only naturals are drawn. */
  KEY("[1-7][b#]|0", "01234567b#"),
  /** Words: anything. */
  FREE(".*", "");

  private final Pattern whole;
  private final String letters;

  Grammar(String whole, String letters) {
    this.whole = Pattern.compile(whole);
    this.letters = letters;
  }

  /** Returns what a sign of this kind may say. */
  public static Grammar of(SignKind kind) {
    return switch (kind) {
      case COUNT -> COUNT;
      case METER -> METER;
      case REHEARSAL -> REHEARSAL;
      case BAR_NUMBER -> BAR_NUMBER;
      case ENDING -> ENDING;
      case KEY -> KEY;
      default -> FREE;
    };
  }

  /** Tells whether a letter may occur at all. */
  boolean allows(char c) {
    return letters.isEmpty() || letters.indexOf(c) >= 0;
  }

  /** Tells whether a text is complete. */
  boolean accepts(CharSequence text) {
    return whole.matcher(text).matches();
  }

  /** Tells whether a text may go on to become complete. */
  boolean canBegin(CharSequence text) {
    Matcher m = whole.matcher(text);
    return m.matches() || m.hitEnd();
  }
}
