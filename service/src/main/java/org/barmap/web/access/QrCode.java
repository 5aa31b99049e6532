package org.barmap.web.access;

import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;

/** An address as a QR code (ISO/IEC 18004), drawn as SVG or in letters. */
public final class QrCode {

  /** Light modules around the code that the standard asks for. */
  private static final int QUIET = 4;

  private QrCode() {}

  /** Returns the picture: black on white in any theme, or a phone may not read it. */
  public static String svg(String text) {
    ByteMatrix dots = dots(text);
    int size = dots.getWidth() + 2 * QUIET;
    StringBuilder path = new StringBuilder();
    for (int y = 0; y < dots.getHeight(); y++) {
      for (int x = 0; x < dots.getWidth(); x++) {
        if (dots.get(x, y) == 1) {
          path.append('M').append(x + QUIET).append(' ').append(y + QUIET).append("h1v1h-1z");
        }
      }
    }
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %1$d %1$d\" shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0 0h%1$dv%1$dH0z\"/><path d=\"%2$s\"/></svg>"
        .formatted(size, path);
  }

  /** Returns it for a terminal with a dark ground: two rows of dots in a line of letters. */
  public static String text(String text) {
    ByteMatrix dots = dots(text);
    StringBuilder lines = new StringBuilder();
    for (int y = -QUIET; y < dots.getHeight() + QUIET; y += 2) {
      for (int x = -QUIET; x < dots.getWidth() + QUIET; x++) {
        boolean upper = isLight(dots, x, y);
        boolean lower = isLight(dots, x, y + 1);
        lines.append(upper ? lower ? '█' : '▀' : lower ? '▄' : ' ');
      }
      lines.append('\n');
    }
    return lines.toString();
  }

  private static boolean isLight(ByteMatrix dots, int x, int y) {
    boolean inside = x >= 0 && y >= 0 && x < dots.getWidth() && y < dots.getHeight();
    return !inside || dots.get(x, y) == 0;
  }

  private static ByteMatrix dots(String text) {
    try {
      return Encoder.encode(text, ErrorCorrectionLevel.M).getMatrix();
    } catch (WriterException e) {
      throw new IllegalArgumentException("too long for a code", e);
    }
  }
}
