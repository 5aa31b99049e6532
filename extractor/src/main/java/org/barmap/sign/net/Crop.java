package org.barmap.sign.net;

import org.barmap.sign.kind.RawSign;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * A piece of a strip, scaled for reading its text.
 *
 * @param ink 0 for paper to 1 for ink, row by row
 * @param width in pixels
 */
@SuppressWarnings("ArrayRecordComponent") // many numbers, compared by nobody
public record Crop(float[] ink, int width) {

  private static final NetSettings.Crops SET = SignSettings.STANDARD.net().crops();

  static final int HEIGHT = 32;
  static final int MOST = 320;

  /** Cuts a sign for the numeral reader. */
  public static Crop of(StripImage strip, RawSign sign) {
    return of(strip, sign, HEIGHT, MOST);
  }

  /** Cuts a sign, scaled to a height; wider than {@code most} it is squeezed. */
  public static Crop of(StripImage strip, RawSign sign, int height, int most) {
    double w = sign.width() * 2 + 2 * SET.margin();
    double h = sign.height() * 2 + 2 * SET.margin();
    double ky = height / h;
    int width = (int) Math.min(most, Math.max(SET.narrowest(), Math.round(w * ky)));
    double kx = width / w;
    // Smoothing before shrinking, as in training.
    double factor = Math.min(kx, ky);
    double sigma = factor < SET.shrunk() ? SET.blur() / factor : 0;
    int above = strip.fineAbove();
    int before = strip.fineBefore();
    double left = sign.x0() * 2 - SET.margin() + before;
    Taps across = Taps.of(width, left, 1 / kx, sigma, 2 * strip.width() + before);
    double top = sign.y0() * 2 - SET.margin() + above;
    Taps down = Taps.of(height, top, 1 / ky, sigma, 2 * StripImage.HEIGHT + above);
    if (across.from() >= across.to() || down.from() >= down.to()) {
      return new Crop(new float[width * height], width); // beyond the strip there is paper
    }
    byte[] fine =
        strip.fine(
            across.from() - before, down.from() - above, across.to() - before, down.to() - above);
    return new Crop(Taps.resample(fine, across, down), width);
  }
}
