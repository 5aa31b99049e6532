package org.barmap.plan.words.clause;

/**
 * A word or a few words of a sentence, by what they say.
 *
 * @param kind what sort of thing it is
 * @param value what it comes to: "cut", "the 4 bars before B", "3"
 * @param text as it was said
 */
record Token(Token.Kind kind, String value, String text) {

  /** What words can be. */
  enum Kind {
    /** Something done. */
    DO,
    /** Something done, or only a word that goes with it: "do", "go", "put". */
    SOFT,
    /** It isn't done. */
    NOT,
    ONLY,
    /** "In all". */
    TOTAL,
    /** So many times more. */
    AGAIN,
    /** "After all": other than was said before. */
    AFTERALL,
    /** The player of this part. */
    YOU,
    /** Everybody. */
    WE,
    /** Other players. */
    THEY,
    /** "Onwards". */
    ON,
    /** All of the number. */
    WHOLE,
    THERE,
    /** What is spoken of: the tempo, the key, a rest. */
    NAME,
    AND,
    PREP,
    /** A time through. */
    PASS,
    FILL,
    /** A bar, or bars said as one: "12 beat 3", "the last 4 bars". */
    PLACE,
    /** What one waits for. */
    CUE,
    /** On which condition. */
    IF,
    /** Why. */
    REASON,
    /** How often. */
    TIMES,
    /** So many bars. */
    BARS,
    METER,
    /** Beats shown in a bar. */
    BEATS,
    INTERVAL,
    /** A metronome's figure. */
    FIGURE,
    KEY,
    INSTRUMENT,
    COMMA,
    /** What stands behind it is left as it is. */
    EXCEPT,
    /** How it is played, whatever the form. */
    STYLE,
    /** A word that nobody knows. */
    WORD
  }

  boolean is(Kind what) {
    return kind == what;
  }

  /** Whether it is something done of this name. */
  boolean does(String what) {
    return (kind == Kind.DO || kind == Kind.SOFT) && value.equals(what);
  }

  /** Whether it may be left aside without changing what is said. */
  boolean free() {
    return switch (kind) {
      case SOFT, FILL, PREP, AND, COMMA, YOU, WE, THERE, REASON -> true;
      case NAME -> value.equals("bars") || value.equals("music");
      default -> false;
    };
  }
}
