package org.barmap.sign.strip;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.util.function.Consumer;
import org.barmap.map.Point;

/** A strip drawn by a test: five staff lines and whatever is painted over them. */
public final class PaintedStrip implements StripImage {
  private final int width;
  private final BufferedImage fine;
  private final byte[] coarse;

  private final double down;

  /** Takes the width in spaces and a painter in fine pixels (16 a space, middle line at 176). */
  public PaintedStrip(int spaces, Consumer<Graphics2D> painter) {
    this(spaces, 0, painter);
  }

  /** The same, its upper edge so many spaces down the page. */
  public PaintedStrip(int spaces, int down, Consumer<Graphics2D> painter) {
    this.down = down * SPACE;
    width = spaces * SPACE;
    fine = new BufferedImage(2 * width, 2 * HEIGHT, BufferedImage.TYPE_BYTE_GRAY);
    Graphics2D g = fine.createGraphics();
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, 2 * width, 2 * HEIGHT);
    g.setColor(Color.BLACK);
    for (int line = -2; line <= 2; line++) {
      g.fillRect(2 * LEFT, 2 * MIDDLE + 16 * line - 1, 2 * width - 4 * LEFT, 2);
    }
    painter.accept(g);
    g.dispose();
    byte[] pixels = pixels();
    coarse = new byte[width * HEIGHT];
    for (int v = 0; v < HEIGHT; v++) {
      for (int u = 0; u < width; u++) {
        int at = 2 * v * 2 * width + 2 * u;
        int sum =
            (pixels[at] & 0xff)
                + (pixels[at + 1] & 0xff)
                + (pixels[at + 2 * width] & 0xff)
                + (pixels[at + 2 * width + 1] & 0xff);
        coarse[v * width + u] = (byte) (sum / 4);
      }
    }
  }

  private byte[] pixels() {
    return ((DataBufferByte) fine.getRaster().getDataBuffer()).getData();
  }

  @Override
  public int width() {
    return width;
  }

  @Override
  public byte[] gray() {
    return coarse;
  }

  @Override
  public byte[] fine(int left, int top, int right, int bottom) {
    byte[] part = new byte[(right - left) * (bottom - top)];
    for (int v = top; v < bottom; v++) {
      System.arraycopy(
          pixels(), v * 2 * width + left, part, (v - top) * (right - left), right - left);
    }
    return part;
  }

  @Override
  public Point toFile(double u, double v) {
    return new Point(u, v + down);
  }
}
