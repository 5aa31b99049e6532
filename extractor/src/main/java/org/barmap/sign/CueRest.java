package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Finds whole-bar rests the network missed among cue notes, which are named by the instrument that
 * plays them.
 *
 * <p>That cues are named and stand beside the player's own rest is common practice.
 */
final class CueRest {
  private static final Pattern INSTRUMENT =
      Pattern.compile(
          "\\(?(?:[Cc]ue:? ?)?(?:Picc|Fl|Ob|E\\.? ?H|Cl|B\\.? ?Cl|Bsn|Fag|Sax|[ATB]\\.? ?Sax|Reed|Hn|Hr"
              + "|Tpt|Trp|Trb|Tbn|Pos|Tuba|Tba|Perc|Dr|Drs|Timp|Gtr|Git|Bjo|Harp|Hp|Pno|Pf|Kbd|Keys"
              + "|Cel|Vln|Viol|Vl|Vla|Vcl?|Vcello|Cello|Cb|Strings|Sop|Voice|Vox)[.,]?"
              + "(?: ?[1-4]| ?I{1,3}\\.?| ?[1-4]\\.[1-4])?\\.?\\)?");

  private static final int DARK = 140;

  /** Pixels a space in the finer strip. */
  private static final int FINE = 2 * StripImage.SPACE;

  /** A rest is about this wide, spaces; engravers draw 1 to 1.4. */
  private static final double WIDE = 1.0;

  /** How sure name and block together make. */
  private static final double NAMED = 0.6;

  /** A rest already seen this surely is enough. */
  private static final double SEEN = 0.5;

  /** Rows looked at over and under the middle line, pixels. */
  private static final int OVER = 6 * FINE + FINE;

  private static final int UNDER = 5 * FINE;

  private CueRest() {}

  /** The part of the finer strip that holds a bar. */
  @SuppressWarnings("ArrayRecordComponent") // a view of pixels, compared by nobody
  private record Part(byte[] gray, int left, int top, int width) {

    static Part of(StripImage strip, int from, int to) {
      int left = Math.max(0, from - 3 * FINE);
      int right = Math.min(2 * strip.width(), to + 3 * FINE);
      int top = 2 * StripImage.MIDDLE - OVER;
      byte[] gray = strip.fine(left, top, right, 2 * StripImage.MIDDLE + UNDER);
      return new Part(gray, left, top, right - left);
    }

    boolean isDark(int x, int y) {
      int at = (y - top) * width + x - left;
      return x >= left
          && x < left + width
          && y >= top
          && at < gray.length
          && (gray[at] & 0xff) < DARK;
    }
  }

  static boolean isInstrument(String text) {
    return INSTRUMENT.matcher(text.strip()).matches();
  }

  /** Adds the rests found to the signs of a strip. */
  static List<Sign> withRests(StripImage strip, List<Sign> signs) {
    List<Sign> all = new ArrayList<>(signs);
    double from = NoteInk.headEnd(signs);
    for (Sign line : signs) {
      if (line.kind() != SignKind.BARLINE || line.probability() < 0.5) {
        continue;
      }
      double to = line.at();
      if (to - from > 2.5 && !holds(signs, from, to)) {
        if (named(signs, from, to)) {
          find(strip, from + 0.7, to - 0.7).ifPresent(all::add);
        }
      }
      from = to;
    }
    all.sort(java.util.Comparator.comparingDouble(Sign::at));
    return all;
  }

  private static boolean named(List<Sign> signs, double from, double to) {
    return signs.stream()
        .anyMatch(
            s ->
                s.kind() == SignKind.WORD
                    && s.from() > from - 1.5
                    && s.from() < to - 1
                    && isInstrument(s.text()));
  }

  private static boolean holds(List<Sign> signs, double from, double to) {
    return signs.stream()
        .anyMatch(
            s ->
                (NoteInk.isRest(s.kind()) || s.kind() == SignKind.COUNT)
                    && s.probability() >= SEEN
                    && s.at() > from
                    && s.at() < to);
  }

  /** Looks for a block hanging from a line or ledger line. */
  private static Optional<Sign> find(StripImage strip, double from, double to) {
    int wide = (int) Math.round(WIDE * FINE);
    Part part = Part.of(strip, (int) (2 * NoteInk.column(from)), (int) (2 * NoteInk.column(to)));
    for (int line : new int[] {-1, -3, -2, -4, -5, 0, 1, 2, 3}) {
      for (int x = (int) (2 * NoteInk.column(from)); x + wide < 2 * NoteInk.column(to); x++) {
        for (int off = -2; off <= 2; off++) {
          int y = 2 * StripImage.MIDDLE + line * FINE + off;
          if (isBlock(part, x, y, wide)) {
            RawSign raw =
                new RawSign(
                    SignKind.REST,
                    x / 2.0,
                    y / 2.0,
                    (x + wide) / 2.0,
                    y / 2.0 + 4,
                    NAMED,
                    List.of());
            return Optional.of(SignReader.sign(strip, raw, List.of()));
          }
        }
      }
    }
    return Optional.empty();
  }

  /** Ink half a space high with paper over and under most of it, and no longer than a rest. */
  private static boolean isBlock(Part fine, int x, int y, int wide) {
    return share(fine, x, y + 2, wide, 5) > 0.95
        && share(fine, x, y + 11, wide, 3) < 0.35
        && share(fine, x, y - 7, wide, 3) < 0.35
        && share(fine, x - 2 * wide, y + 4, wide, 2) < 0.8
        && share(fine, x + 2 * wide, y + 4, wide, 2) < 0.8
        && flat(fine, x, y, wide);
  }

  /** Whether the ink begins at one height over its whole width; a head's is round. */
  private static boolean flat(Part fine, int x, int y, int wide) {
    int straight = 0;
    for (int u = x; u < x + wide; u++) {
      int top = y + 4;
      while (top > y - 8 && share(fine, u, top - 1, 1, 1) > 0) {
        top--;
      }
      straight += Math.abs(top - y) <= 2 ? 1 : 0;
    }
    return straight >= 0.85 * wide;
  }

  private static double share(Part fine, int x0, int y0, int w, int h) {
    int dark = 0;
    for (int y = y0; y < y0 + h; y++) {
      for (int x = x0; x < x0 + w; x++) {
        dark += fine.isDark(x, y) ? 1 : 0;
      }
    }
    return dark / (double) (w * h);
  }
}
