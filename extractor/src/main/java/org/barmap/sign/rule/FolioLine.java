package org.barmap.sign.rule;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.set.NumberSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * The page's own number among the lines of text over its first staff: small figures alone, high
 * over the end of the staff. An even one stands at the left, an odd one at the right (common
 * practice); what stands on the wrong side is something else or misread.
 */
public final class FolioLine {

  private static final NumberSettings.Corner SET = SignSettings.STANDARD.number().corner();

  /** Figures, perhaps between dashes, of which a reader of words makes dots. */
  private static final Pattern ALONE = Pattern.compile("[-–—. ]*([1-9]\\d{0,2})[-–—. ]*");

  private FolioLine() {}

  /** A line of text and what it says. */
  public record Line(RawSign box, Reading read) {}

  /**
   * Returns the page's number; none where two lines may be it.
   *
   * @param length of the strip, pixels
   * @param lines of text over the page's first staff
   */
  public static Optional<Folio> of(double length, List<Line> lines) {
    List<Folio> found = lines.stream().flatMap(l -> folio(length, l).stream()).toList();
    return found.size() == 1 ? Optional.of(found.get(0)) : Optional.empty();
  }

  private static Optional<Folio> folio(double length, Line line) {
    RawSign box = line.box();
    Matcher text = ALONE.matcher(line.read().text());
    boolean small = box.height() < SET.tall() * StripImage.SPACE;
    boolean high = box.y1() < StripImage.MIDDLE - SET.high() * StripImage.SPACE;
    if (!small || !high || !text.matches()) {
      return Optional.empty();
    }
    int number = Integer.parseInt(text.group(1));
    double corner = SET.corner() * StripImage.SPACE;
    boolean placed =
        number % 2 == 0
            ? StripImage.along(box.x1()) < SET.corner()
            : box.x0() > length - corner && box.x0() > length / 2;
    return placed ? Optional.of(new Folio(number, line.read().probability())) : Optional.empty();
  }
}
