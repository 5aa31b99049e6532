package org.barmap.work;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;

/** A small page of bare staves, which is read in a moment. */
public final class DrawnPage {

  private static final int LEFT = 100;
  private static final int LENGTH = 1000;
  private static final int SPACE = 16;

  private DrawnPage() {}

  /**
   * Draws one.
   *
   * @param file PNG
   * @param bars how many each staff has, evenly
   */
  public static Path draw(Path file, int... bars) throws IOException {
    BufferedImage image =
        new BufferedImage(1240, 200 + 300 * bars.length, BufferedImage.TYPE_BYTE_GRAY);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, image.getWidth(), image.getHeight());
    g.setColor(Color.BLACK);
    g.setStroke(new BasicStroke(2));
    for (int s = 0; s < bars.length; s++) {
      int top = 200 + 300 * s;
      for (int line = 0; line < 5; line++) {
        g.drawLine(LEFT, top + SPACE * line, LEFT + LENGTH, top + SPACE * line);
      }
      for (int k = 1; k <= bars[s]; k++) {
        int x = LEFT + LENGTH * k / bars[s];
        g.drawLine(x, top, x, top + 4 * SPACE);
      }
    }
    g.dispose();
    ImageIO.write(image, "png", file.toFile());
    return file;
  }
}
