package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.RestSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * Finds whole-bar rests the network missed among cue notes, which are named by the instrument that
 * plays them.
 *
 * <p>That cues are named and stand beside the player's own rest is common practice.
 */
public final class CueRest {

  private static final RestSettings.Cues SET = SignSettings.STANDARD.rest().cues();

  private static final RestSettings.Block BLOCK = SignSettings.STANDARD.rest().block();

  private static final Pattern INSTRUMENT =
      Pattern.compile(
          "\\(?(?:[Cc]ue:? ?)?(?:Picc|Fl|Ob|E\\.? ?H|Cl|B\\.? ?Cl|Bsn|Fag|Sax|[ATB]\\.? ?Sax|Reed|Hn|Hr"
              + "|Tpt|Trp|Trb|Tbn|Pos|Tuba|Tba|Perc|Dr|Drs|Timp|Gtr|Git|Bjo|Harp|Hp|Pno|Pf|Kbd|Keys"
              + "|Cel|Vln|Viol|Vl|Vla|Vcl?|Vcello|Cello|Cb|Strings|Sop|Voice|Vox)[.,]?"
              + "(?: ?[1-4]| ?I{1,3}\\.?| ?[1-4]\\.[1-4])?\\.?\\)?");

  private static final int FINE = StripImage.FINE;
  private static final int DARK = SignSettings.STANDARD.ink().dark();

  /** The line a whole-bar rest hangs from (common practice), spaces from the middle one. */
  private static final List<Integer> FOURTH = List.of(-1);

  private CueRest() {}

  /** Tells of a bar, from one barline to the next in spaces, whether the network hears nobody. */
  public interface SilentBars {

    /**
     * Tells whether a bar is silent for the player, whatever stands in it.
     *
     * @param named the name of another instrument stands over it
     */
    boolean is(double from, double to, boolean named);
  }

  /** The part of the finer strip that holds a bar. */
  @SuppressWarnings("ArrayRecordComponent") // a view of pixels, compared by nobody
  private record BarInk(byte[] gray, int left, int top, int width) {

    static BarInk of(StripImage strip, int from, int to) {
      int left = Math.max(0, from - SET.around() * FINE);
      int right = Math.min(2 * strip.width(), to + SET.around() * FINE);
      int top = 2 * StripImage.MIDDLE - SET.over() * FINE;
      byte[] gray = strip.fine(left, top, right, 2 * StripImage.MIDDLE + SET.under() * FINE);
      return new BarInk(gray, left, top, right - left);
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

  /** Adds the rests found to the signs of a strip, and takes those away that can't be. */
  public static List<Sign> withRests(
      StripImage strip, List<Sign> signs, Heads heads, SilentBars silence) {
    List<Sign> all = new ArrayList<>(signs);
    boolean cue = false;
    for (Heads.Bar bar : Heads.Bar.all(signs)) {
      boolean named = named(signs, bar.from(), bar.to());
      boolean silent = silence.is(bar.from(), bar.to(), named || cue);
      cue = silent && (named || cue); // a cue goes on under one name
      if (silent && bar.rests(signs)) {
        all.replaceAll(s -> bar.has(s) ? surer(s) : s);
      } else if (bar.holds(signs)) {
        all.replaceAll(s -> bar.has(s) ? believed(strip, s, signs, bar, named, heads) : s);
      } else if (silent) {
        double middle = 2 * StripImage.column((bar.from() + bar.to()) / 2);
        all.add(rest(strip, (int) middle, 2 * StripImage.MIDDLE - FINE));
      } else if (named) {
        cue(strip, signs, bar, heads).ifPresent(all::add);
      } else {
        lone(strip, signs, bar, heads).ifPresent(all::add);
      }
    }
    all.sort(java.util.Comparator.comparingDouble(Sign::at));
    return all;
  }

  /** A rest in a bar that is silent all over. */
  private static Sign surer(Sign s) {
    return s.kind() == SignKind.REST ? s.likely(Math.max(s.probability(), SET.probability())) : s;
  }

  /** A rest beside a cue: found, or told by a bar full of small heads under a name. */
  private static Optional<Sign> cue(
      StripImage strip, List<Sign> signs, Heads.Bar bar, Heads heads) {
    Heads.Count count = heads.in(strip, signs, bar);
    if (count.isOwn()) {
      return Optional.empty();
    }
    Optional<Sign> block = find(strip, bar.from() + SET.from(), bar.to() - SET.from(), SET.lines());
    if (block.isPresent() || !count.isCue()) {
      return block;
    }
    double middle = 2 * StripImage.column((bar.from() + bar.to()) / 2);
    return Optional.of(rest(strip, (int) middle, 2 * StripImage.MIDDLE - FINE));
  }

  /** A rest that is all there is in its bar; beside a wide key the network overlooks it. */
  private static Optional<Sign> lone(
      StripImage strip, List<Sign> signs, Heads.Bar bar, Heads heads) {
    Optional<Sign> key =
        signs.stream().filter(s -> s.kind() == SignKind.KEY && bar.has(s)).findFirst();
    double from = Math.max(bar.from() + SET.from(), key.map(Sign::to).orElse(0.0));
    double to = bar.to() - SET.to();
    boolean music =
        key.isEmpty()
            || to - from < SET.least()
            || NoteInk.stemBetween(strip, from, to)
            || heads.in(strip, signs, new Heads.Bar(from, to)).own() > 0;
    return music ? Optional.empty() : find(strip, from, to, FOURTH);
  }

  /** Lowers what contradicts the notes in its bar. */
  private static Sign believed(
      StripImage strip, Sign s, List<Sign> signs, Heads.Bar bar, boolean named, Heads heads) {
    boolean whole =
        s.kind() == SignKind.REST && !named && s.probability() < SET.clear() && isLow(s);
    boolean block =
        s.kind() == SignKind.BLOCK_REST && signs.stream().noneMatch(n -> isCount(n, bar));
    boolean repeat = s.kind() == SignKind.BAR_REPEAT;
    if (!whole && !block && !repeat) {
      return s;
    }
    if (whole && sitsOnLine(s) && isWritten(strip, bar, s)) {
      return lowered(s);
    }
    int own = heads.in(strip, signs, bar).own();
    return own >= (whole ? SET.ownNotes() : 1) ? lowered(s) : s;
  }

  private static boolean isCount(Sign s, Heads.Bar bar) {
    return s.kind() == SignKind.COUNT && bar.has(s);
  }

  /** Over the staff rests are moved for cues only. */
  private static boolean isLow(Sign s) {
    return s.top() > SET.high();
  }

  /** A whole-bar rest hangs from a line; a block that sits on one lasts half a bar. */
  private static boolean sitsOnLine(Sign s) {
    return Math.abs(s.top() - Math.round(s.top())) > SET.offLine()
        && Math.abs(s.bottom() - Math.round(s.bottom())) < SET.offLine();
  }

  /** Tells whether a stem stands in the bar beside a sign. */
  private static boolean isWritten(StripImage strip, Heads.Bar bar, Sign s) {
    return NoteInk.stemBetween(strip, bar.from() + SET.from(), s.from() - SET.beside())
        || NoteInk.stemBetween(strip, s.to() + SET.beside(), bar.to() - SET.to());
  }

  private static Sign lowered(Sign s) {
    return s.likely(s.probability() * SET.doubted());
  }

  private static boolean named(List<Sign> signs, double from, double to) {
    return signs.stream()
        .anyMatch(
            s ->
                s.kind() == SignKind.WORD
                    && s.from() > from - SET.nameBefore()
                    && s.from() < to - SET.nameUntil()
                    && isInstrument(s.text()));
  }

  /** Looks for a block hanging from a line or ledger line. */
  private static Optional<Sign> find(
      StripImage strip, double from, double to, List<Integer> lines) {
    int wide = (int) Math.round(BLOCK.wide() * FINE);
    BarInk part =
        BarInk.of(strip, (int) (2 * StripImage.column(from)), (int) (2 * StripImage.column(to)));
    for (int line : lines) {
      for (int x = (int) (2 * StripImage.column(from)); x + wide < 2 * StripImage.column(to); x++) {
        for (int off = -BLOCK.off(); off <= BLOCK.off(); off++) {
          int y = 2 * StripImage.MIDDLE + line * FINE + off;
          if (isBlock(part, x, y, wide)) {
            return Optional.of(rest(strip, x, y));
          }
        }
      }
    }
    return Optional.empty();
  }

  private static Sign rest(StripImage strip, int x, int y) {
    double wide = BLOCK.wide() * FINE;
    RawSign raw =
        new RawSign(
            SignKind.REST,
            x / 2.0,
            y / 2.0,
            (x + wide) / 2.0,
            y / 2.0 + BLOCK.height(),
            SET.probability(),
            List.of(),
            Origin.INK);
    return StripSign.of(strip, raw, List.of());
  }

  /** Ink half a space high with paper over and under most of it, and no longer than a rest. */
  private static boolean isBlock(BarInk fine, int x, int y, int wide) {
    return share(fine, x, y + BLOCK.top(), wide, BLOCK.rows()) > BLOCK.inked()
        && share(fine, x, y + BLOCK.below(), wide, BLOCK.paperRows()) < BLOCK.paper()
        && share(fine, x, y - BLOCK.above(), wide, BLOCK.paperRows()) < BLOCK.paper()
        && share(fine, x - 2 * wide, y + BLOCK.middle(), wide, BLOCK.besideRows()) < BLOCK.beside()
        && share(fine, x + 2 * wide, y + BLOCK.middle(), wide, BLOCK.besideRows()) < BLOCK.beside()
        && flat(fine, x, y, wide);
  }

  /** Whether the ink begins at one height over its whole width; a head's is round. */
  private static boolean flat(BarInk fine, int x, int y, int wide) {
    int straight = 0;
    for (int u = x; u < x + wide; u++) {
      int top = y + BLOCK.middle();
      while (top > y - BLOCK.higher() && share(fine, u, top - 1, 1, 1) > 0) {
        top--;
      }
      straight += Math.abs(top - y) <= BLOCK.off() ? 1 : 0;
    }
    return straight >= BLOCK.level() * wide;
  }

  private static double share(BarInk fine, int x0, int y0, int w, int h) {
    int dark = 0;
    for (int y = y0; y < y0 + h; y++) {
      for (int x = x0; x < x0 + w; x++) {
        dark += fine.isDark(x, y) ? 1 : 0;
      }
    }
    return dark / (double) (w * h);
  }
}
