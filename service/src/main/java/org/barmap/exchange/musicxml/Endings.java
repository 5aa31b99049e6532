package org.barmap.exchange.musicxml;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Ending;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.ScorePartwise.Part.Measure;
import org.audiveris.proxymusic.StartStopDiscontinue;

/**
 * Which endings each measure of a part lies under. An ending that is never stopped goes to its
 * backward repeat or to the next double or final barline, or else it is one measure long.
 */
final class Endings {
  private static final Pattern NUMBERS =
      Pattern.compile("(?<!\\d)(\\d{1,2})(?:\\s*\\.?\\s*[-\\u2013]\\s*(\\d{1,2}))?(?!\\d)");

  private final List<List<Integer>> numbers;
  private final Map<Integer, String> doubts = new HashMap<>();

  private Endings(int measures) {
    numbers = new ArrayList<>(Collections.nCopies(measures, List.of()));
  }

  /** An ending that was begun. */
  private record Open(int from, List<Integer> numbers) {}

  static Endings of(List<Measure> measures) {
    Endings endings = new Endings(measures.size());
    Open open = null;
    for (int i = 0; i < measures.size(); i++) {
      boolean played = false;
      boolean notes = hasNotes(measures.get(i));
      for (Object o : measures.get(i).getNoteOrBackupOrForward()) {
        played |= o instanceof Note;
        if (!(o instanceof Barline b) || b.getEnding() == null) {
          continue;
        }
        // a barline before the notes that says no place is a left one
        boolean left = b.getLocation() == RightLeftMiddle.LEFT || !played && notes;
        Ending e = b.getEnding();
        if (e.getType() == StartStopDiscontinue.START) {
          if (open != null) {
            endings.unstopped(open, i - 1, measures);
          }
          open = new Open(left ? i : i + 1, endings.numbers(i, e));
        } else if (open != null) {
          int last = left && open.from < i && b.getLocation() == RightLeftMiddle.LEFT ? i - 1 : i;
          endings.fill(open, last);
          open = null;
        }
      }
    }
    if (open != null) {
      endings.unstopped(open, measures.size() - 1, measures);
    }
    return endings;
  }

  /** Returns which endings a measure lies under. */
  List<Integer> at(int measure) {
    return numbers.get(measure);
  }

  /** Returns what is to be asked about the endings of a measure, one sentence. */
  List<String> doubts(int measure) {
    String doubt = doubts.get(measure);
    return doubt == null ? List.of() : List.of(doubt);
  }

  private static boolean hasNotes(Measure measure) {
    return measure.getNoteOrBackupOrForward().stream().anyMatch(Note.class::isInstance);
  }

  private void fill(Open open, int last) {
    for (int k = open.from; k <= last && k < numbers.size(); k++) {
      numbers.set(k, open.numbers);
    }
  }

  private void unstopped(Open open, int most, List<Measure> measures) {
    int last = open.from;
    for (int k = open.from; k <= most; k++) {
      if (closes(measures.get(k))) {
        last = k;
        break;
      }
    }
    fill(open, last);
    doubts.put(
        open.from, "The file does not say where the ending that begins here stops; look where");
  }

  private static boolean closes(Measure measure) {
    for (Object o : measure.getNoteOrBackupOrForward()) {
      if (o instanceof Barline b && b.getLocation() != RightLeftMiddle.LEFT) {
        org.barmap.map.Barline line = Barlines.right(b);
        if (line.endsRepeat()
            || line == org.barmap.map.Barline.DOUBLE
            || line == org.barmap.map.Barline.FINAL) {
          return true;
        }
      }
    }
    return false;
  }

  /** What its attribute says, "1, 2" or "1-3"; what is printed where that says nothing. */
  private List<Integer> numbers(int measure, Ending e) {
    List<Integer> said = numbers(e.getNumber());
    List<Integer> taken = said.isEmpty() ? numbers(e.getValue()) : said;
    if (taken.isEmpty()) {
      doubts.put(measure, "An ending without a number begins here; it is left out");
    }
    return taken;
  }

  private static List<Integer> numbers(String text) {
    TreeSet<Integer> numbers = new TreeSet<>();
    Matcher m = NUMBERS.matcher(text == null ? "" : Texts.clip(text, 200));
    while (m.find()) {
      int from = Integer.parseInt(m.group(1));
      int to = m.group(2) == null ? from : Integer.parseInt(m.group(2));
      for (int n = Math.max(1, from); n <= to; n++) {
        numbers.add(n);
      }
    }
    return List.copyOf(numbers);
  }
}
