package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;

/** Cuts a line of text into its words by the gaps between its letters. */
final class TextLine {
  private static final int DARK = 140;

  /** Words are further apart than this, in heights of the line. */
  private static final double GAP = 0.22;

  /** The same in usual gaps between letters. */
  private static final double SPACED = 1.9;

  private TextLine() {}

  /** Returns the words from left to right, each as high as the line. */
  static List<RawSign> words(StripImage strip, RawSign line) {
    StripImage.Fine fine = strip.fine();
    int x0 = (int) Math.max(0, 2 * line.x0());
    int x1 = (int) Math.min(fine.width(), Math.ceil(2 * line.x1()));
    List<Integer> inked = new ArrayList<>();
    List<Integer> gaps = new ArrayList<>();
    for (int x = x0; x < x1; x++) {
      if (hasInk(fine, line, x)) {
        if (!inked.isEmpty() && x - inked.get(inked.size() - 1) > 1) {
          gaps.add(x - inked.get(inked.size() - 1));
        }
        inked.add(x);
      }
    }
    gaps.sort(null);
    // Where letters are set apart, words are set further apart.
    double usual = gaps.isEmpty() ? 0 : gaps.get(gaps.size() / 2);
    double least = Math.max(GAP * 2 * line.height(), SPACED * usual);
    List<RawSign> words = new ArrayList<>();
    int begin = -1;
    int last = -1;
    for (int x : inked) {
      if (begin >= 0 && x - last > least) {
        words.add(word(line, begin, last + 1));
        begin = x;
      }
      begin = begin < 0 ? x : begin;
      last = x;
    }
    if (begin >= 0) {
      words.add(word(line, begin, last + 1));
    }
    return words;
  }

  /** Tells whether two pieces are near enough for figures of one number; a 1 is narrow. */
  static boolean close(RawSign left, RawSign right) {
    return right.x0() - left.x1() < 2 * GAP * left.height();
  }

  /** Tells whether all of a piece's ink is one flat stroke. */
  static boolean isDash(StripImage strip, RawSign word) {
    StripImage.Fine fine = strip.fine();
    int y0 = (int) Math.max(0, 2 * word.y0() + fine.above());
    int y1 = (int) Math.min(fine.rows(), Math.ceil(2 * word.y1() + fine.above()));
    int first = -1;
    int last = -1;
    for (int y = y0; y < y1; y++) {
      for (int x = (int) (2 * word.x0()); x < Math.min(fine.width(), 2 * word.x1()); x++) {
        if ((fine.gray()[y * fine.width() + Math.max(0, x)] & 0xff) < DARK) {
          first = first < 0 ? y : first;
          last = y;
        }
      }
    }
    double height = last - first + 1;
    return first >= 0 && height < 0.3 * (y1 - y0) && 2 * word.width() > 1.8 * height;
  }

  private static RawSign word(RawSign line, int from, int to) {
    return new RawSign(SignKind.WORD, from / 2.0, line.y0(), to / 2.0, line.y1(), 1, List.of());
  }

  private static boolean hasInk(StripImage.Fine fine, RawSign line, int x) {
    int y0 = (int) Math.max(0, 2 * line.y0() + fine.above());
    int y1 = (int) Math.min(fine.rows(), Math.ceil(2 * line.y1() + fine.above()));
    for (int y = y0; y < y1; y++) {
      if ((fine.gray()[y * fine.width() + x] & 0xff) < DARK) {
        return true;
      }
    }
    return false;
  }
}
