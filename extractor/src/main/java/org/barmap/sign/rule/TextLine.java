package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.List;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.set.TextSettings;
import org.barmap.sign.strip.StripImage;
import org.opencv.core.Rect;

/** Cuts a line of text into its words by the gaps between its letters. */
public final class TextLine {

  private static final TextSettings.Words SET = SignSettings.STANDARD.text().words();

  private static final int DARK = SignSettings.STANDARD.ink().dark();

  private TextLine() {}

  /** Returns the words from left to right, each as high as the line. */
  public static List<RawSign> words(StripImage strip, RawSign line) {
    Rect box = box(strip, line);
    byte[] gray = pixels(strip, box);
    List<Integer> inked = new ArrayList<>();
    List<Integer> gaps = new ArrayList<>();
    for (int x = box.x; x < box.x + box.width; x++) {
      if (hasInk(gray, box, x)) {
        if (!inked.isEmpty() && x - inked.get(inked.size() - 1) > 1) {
          gaps.add(x - inked.get(inked.size() - 1));
        }
        inked.add(x);
      }
    }
    gaps.sort(null);
    // Where letters are set apart, words are set further apart.
    double usual = gaps.isEmpty() ? 0 : gaps.get(gaps.size() / 2);
    double least = Math.max(SET.gap() * 2 * line.height(), SET.spaced() * usual);
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
  public static boolean close(RawSign left, RawSign right) {
    return right.x0() - left.x1() < 2 * SET.gap() * left.height();
  }

  /** Tells whether all of a piece's ink is one flat stroke. */
  public static boolean isDash(StripImage strip, RawSign word) {
    Rect box = box(strip, word);
    byte[] gray = pixels(strip, box);
    int first = -1;
    int last = -1;
    for (int i = 0; i < gray.length; i++) {
      if ((gray[i] & 0xff) < DARK) {
        first = first < 0 ? i / box.width : first;
        last = i / box.width;
      }
    }
    double height = last - first + 1;
    return first >= 0 && height < SET.flat() * box.height && 2 * word.width() > SET.dash() * height;
  }

  private static RawSign word(RawSign line, int from, int to) {
    return new RawSign(
        SignKind.WORD, from / 2.0, line.y0(), to / 2.0, line.y1(), 1, List.of(), Origin.INK);
  }

  /** Returns the pixels of the finer strip that hold a sign; none where it lies outside. */
  private static Rect box(StripImage strip, RawSign sign) {
    int x0 = (int) Math.max(0, 2 * sign.x0());
    int x1 = (int) Math.min(2 * strip.width(), Math.ceil(2 * sign.x1()));
    int y0 = (int) Math.max(-strip.fineAbove(), Math.floor(2 * sign.y0()));
    int y1 = (int) Math.min(2 * StripImage.HEIGHT, Math.ceil(2 * sign.y1()));
    return new Rect(x0, y0, Math.max(0, x1 - x0), Math.max(0, y1 - y0));
  }

  private static byte[] pixels(StripImage strip, Rect box) {
    return box.width == 0 || box.height == 0
        ? new byte[0]
        : strip.fine(box.x, box.y, box.x + box.width, box.y + box.height);
  }

  private static boolean hasInk(byte[] gray, Rect box, int x) {
    for (int i = x - box.x; i < gray.length; i += box.width) {
      if ((gray[i] & 0xff) < DARK) {
        return true;
      }
    }
    return false;
  }
}
