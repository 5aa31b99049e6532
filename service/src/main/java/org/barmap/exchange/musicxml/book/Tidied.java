package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.List;
import org.audiveris.proxymusic.BackwardForward;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.ScorePartwise.Part.Measure;
import org.audiveris.proxymusic.YesNo;
import org.jspecify.annotations.Nullable;

/**
 * Measures with every barline in its place: one that leads back and stands at a measure's left side
 * is the right one of the measure before, and a repeat in the middle parts its measure in two.
 */
final class Tidied {

  private Tidied() {}

  static List<Measure> of(List<Measure> measures) {
    List<Measure> out = new ArrayList<>();
    for (Measure measure : measures) {
      for (Measure piece : split(measure)) {
        leftsIn(piece, out.isEmpty() ? null : out.get(out.size() - 1));
        out.add(piece);
      }
    }
    return out;
  }

  private static void leftsIn(Measure measure, @Nullable Measure before) {
    boolean played = false;
    List<Object> content = measure.getNoteOrBackupOrForward();
    boolean notes = content.stream().anyMatch(Note.class::isInstance);
    List<Object> stay = new ArrayList<>();
    for (Object o : content) {
      played |= o instanceof Note;
      if (!(o instanceof Barline b)) {
        stay.add(o);
        continue;
      }
      if (b.getLocation() == null && notes && !played) {
        b.setLocation(RightLeftMiddle.LEFT);
      }
      boolean left = b.getLocation() == RightLeftMiddle.LEFT;
      if (left && leadsBack(b) && before != null) {
        b.setLocation(RightLeftMiddle.RIGHT);
        before.getNoteOrBackupOrForward().add(b);
      } else {
        stay.add(o);
      }
    }
    content.clear();
    content.addAll(stay);
  }

  private static boolean leadsBack(Barline b) {
    return b.getRepeat() != null && b.getRepeat().getDirection() == BackwardForward.BACKWARD;
  }

  private static List<Measure> split(Measure measure) {
    List<Object> content = measure.getNoteOrBackupOrForward();
    List<Measure> pieces = new ArrayList<>();
    List<Object> now = new ArrayList<>();
    for (Object o : content) {
      boolean middle =
          o instanceof Barline b
              && b.getLocation() == RightLeftMiddle.MIDDLE
              && (b.getRepeat() != null || b.getEnding() != null);
      if (!middle) {
        now.add(o);
        continue;
      }
      Barline b = (Barline) o;
      boolean begins = b.getRepeat() != null && !leadsBack(b);
      b.setLocation(begins ? RightLeftMiddle.LEFT : RightLeftMiddle.RIGHT);
      if (!begins) {
        now.add(b);
      }
      pieces.add(piece(measure, now, pieces.isEmpty()));
      now = new ArrayList<>();
      if (begins) {
        now.add(b);
      }
    }
    if (pieces.isEmpty()) {
      return List.of(measure);
    }
    pieces.add(piece(measure, now, false));
    return pieces;
  }

  private static Measure piece(Measure whole, List<Object> content, boolean first) {
    Measure piece = new Measure();
    piece.setNumber(first ? whole.getNumber() : "");
    piece.setImplicit(first ? whole.getImplicit() : YesNo.YES);
    piece.getNoteOrBackupOrForward().addAll(content);
    return piece;
  }
}
