package org.barmap.exchange.musicxml.write;

import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;
import org.barmap.map.Word;

/**
 * What the jumps and repeats of one musical number have to say.
 *
 * @param coda a D.C. or D.S. leads to a coda
 * @param fine a D.C. or D.S. ends at a fine
 * @param openRepeat its first backward repeat has no forward one: it goes back to the beginning
 * @param again repeats are taken again after a jump, as words at it say
 */
record Form(boolean coda, boolean fine, boolean openRepeat, boolean again) {
  static final Form NONE = new Form(false, false, false, false);
  private static final Pattern REPEATS =
      Pattern.compile("(?i).*(?:\\brepeats?\\b|\\brep\\.|\\bripetizion|\\br[e\u00e9]pris).*");
  private static final Pattern WITHOUT =
      Pattern.compile("(?i).*\\b(?:no|without|senza|sans|omit|skip)\\b.*");

  /** Reads the number that begins at an entry; the next one begins at one of {@code starts}. */
  static Form of(List<Bar> bars, int from, Set<String> starts) {
    boolean to = false;
    boolean coda = false;
    boolean fine = false;
    boolean opened = false;
    boolean open = false;
    boolean again = false;
    for (int i = from; i < bars.size() && (i == from || !starts.contains(bars.get(i).id())); i++) {
      Bar bar = bars.get(i);
      to |= bar.has(Navigation.TO_CODA);
      coda |= bar.has(Navigation.CODA);
      fine |= bar.has(Navigation.FINE);
      opened |= bar.startBarline().startsRepeat();
      open |= !opened && bar.endBarline().endsRepeat();
      again |=
          bar.words().stream()
              .anyMatch(w -> ofAJump(bar, w) && !WITHOUT.matcher(w.text()).matches());
      opened |= open || bar.endBarline().startsRepeat();
    }
    return new Form(to && coda, fine, open, again);
  }

  /** Tells whether words say how repeats go after the jump at their bar. */
  static boolean ofAJump(Bar bar, Word word) {
    return (bar.has(Navigation.DA_CAPO) || bar.has(Navigation.DAL_SEGNO))
        && REPEATS.matcher(word.text()).matches();
  }

  /** Returns how a jump is worded where the map has no words of its own for it. */
  String worded(String jump) {
    return coda ? jump + " al Coda" : fine ? jump + " al Fine" : jump;
  }
}
