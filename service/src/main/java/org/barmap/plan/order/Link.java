package org.barmap.plan.order;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.barmap.map.Word;

/** How one number follows the one before. */
public enum Link {
  /** Dialogue, applause or a scene in between. */
  BREAK("break", ""),
  /** On cue. */
  SEGUE("segue", "\\bsegue\\b"),
  /** After the applause. */
  APPLAUSE_SEGUE(
      "applause-segue", "\\bapplause\\s+segue\\b|\\bsegue\\s+(?:on|after)\\s+applause\\b"),
  /** In time on the next downbeat. */
  SEGUE_AS_ONE("segue-as-one", "\\bsegue\\s+as\\s+one\\b"),
  /** At once, no dialogue in between. */
  ATTACCA("attacca", "\\battacca\\b");

  private final String word;
  private final Pattern pattern;

  Link(String word, String regex) {
    this.word = word;
    this.pattern = Pattern.compile(regex, Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
  }

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return word;
  }

  /** Tells whether nothing lies between the two numbers. */
  public boolean joined() {
    return this == ATTACCA || this == SEGUE_AS_ONE;
  }

  /** Returns what the words at the last bar of a number say; a break when nothing. */
  public static Link read(List<Word> words) {
    Link found = BREAK;
    for (Word word : words) {
      for (Link link : values()) {
        boolean says =
            link != BREAK && link.pattern.matcher(word.text().toLowerCase(Locale.ROOT)).find();
        found = says && link.compareTo(found) > 0 ? link : found;
      }
    }
    return found;
  }
}
