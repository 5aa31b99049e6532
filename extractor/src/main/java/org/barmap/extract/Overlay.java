package org.barmap.extract;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;
import org.barmap.page.PageImage;

/** Draws what a bar map says over the upright page image, for looking. */
public final class Overlay {
  private static final Map<Barline, Color> LINES =
      Map.of(
          Barline.SINGLE, new Color(0, 120, 60),
          Barline.DOUBLE, new Color(0, 90, 200),
          Barline.FINAL, new Color(20, 20, 20),
          Barline.REPEAT_START, new Color(200, 0, 120),
          Barline.REPEAT_END, new Color(200, 0, 120),
          Barline.REPEAT_BOTH, new Color(200, 0, 120),
          Barline.DASHED, new Color(0, 150, 170));
  private static final Color SYSTEM = new Color(120, 120, 220);
  private static final Color NUMBER = new Color(0, 110, 55);
  private static final Color MARK = new Color(190, 60, 0);

  private Overlay() {}

  /**
   * Writes one PNG for each page of a map.
   *
   * @param paths what the map was read from, as given to {@link Extractor#read}
   * @param folder is made where it does not exist; files are called {@code page-001.png} …
   * @return the files written
   * @throws IOException when a file can't be written
   */
  public static List<Path> write(List<Path> paths, BarMap map, Path folder) throws IOException {
    return UprightPages.write(
        paths,
        folder,
        (image, index) -> {
          Path file = folder.resolve("page-%03d.png".formatted(index));
          if (!ImageIO.write(draw(image, map, index), "png", file.toFile())) {
            throw new IOException("no PNG can be written to " + file);
          }
          return file;
        });
  }

  /** Draws one page in the pixels of its working image. */
  static BufferedImage draw(PageImage image, BarMap map, int index) {
    BufferedImage canvas = copy(image);
    Graphics2D g = canvas.createGraphics();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    float space = (float) Math.max(8, image.staffSpace());
    g.setFont(new Font(Font.SANS_SERIF, Font.BOLD, Math.round(1.5f * space)));
    for (Page page : map.pages()) {
      if (page.index() == index) {
        for (StaffSystem system : page.systems()) {
          g.setColor(SYSTEM);
          g.setStroke(new BasicStroke(Math.max(1, space / 10)));
          g.draw(shape(image, system.outline()));
        }
      }
    }
    for (Bar bar : map.bars()) {
      if (bar.page() == index) {
        bar(g, image, bar, space);
      }
    }
    g.dispose();
    return canvas;
  }

  private static void bar(Graphics2D g, PageImage image, Bar bar, float space) {
    if (bar.isRest()) {
      g.setColor(new Color(90, 90, 255, 40));
      g.fill(shape(image, bar.outline()));
    }
    Outline o = bar.outline();
    if (bar.startBarline() == Barline.REPEAT_START) {
      line(g, image, o.topLeft(), o.bottomLeft(), bar.startBarline(), space);
    }
    line(g, image, o.topRight(), o.bottomRight(), bar.endBarline(), space);
    Point at = image.toWork(o.topLeft().x(), o.topLeft().y());
    float x = (float) at.x() + 0.3f * space;
    g.setColor(NUMBER);
    String text = bar.label().orElse(Integer.toString(bar.number()));
    text += bar.count() > 1 ? " ×" + bar.count() : "";
    text += bar.confidence() < 0.8 ? " ?" : "";
    g.drawString(text, x, (float) at.y() - 0.4f * space);
    StringBuilder more = new StringBuilder();
    bar.rehearsal().ifPresent(r -> more.append('[').append(r.text()).append("] "));
    bar.meter()
        .filter(m -> m.printed())
        .ifPresent(m -> more.append(m.beats()).append('/').append(m.unit()).append(' '));
    bar.ending().forEach(e -> more.append(e).append(". "));
    bar.signs().forEach(s -> more.append(s.word()).append(' '));
    bar.words().forEach(w -> more.append('"').append(w.text()).append("\" "));
    g.setColor(MARK);
    g.drawString(more.toString(), x, (float) at.y() - 2f * space);
  }

  private static void line(
      Graphics2D g, PageImage image, Point top, Point bottom, Barline type, float space) {
    Point a = image.toWork(top.x(), top.y());
    Point b = image.toWork(bottom.x(), bottom.y());
    g.setColor(LINES.getOrDefault(type, Color.GRAY));
    g.setStroke(new BasicStroke(Math.max(2, space / 4)));
    Path2D path = new Path2D.Double();
    path.moveTo(a.x(), a.y() - 0.5 * space);
    path.lineTo(b.x(), b.y() + 0.5 * space);
    g.draw(path);
  }

  private static Path2D shape(PageImage image, Outline o) {
    Path2D path = new Path2D.Double();
    boolean first = true;
    for (Point p : List.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft())) {
      Point w = image.toWork(p.x(), p.y());
      if (first) {
        path.moveTo(w.x(), w.y());
      } else {
        path.lineTo(w.x(), w.y());
      }
      first = false;
    }
    path.closePath();
    return path;
  }

  private static BufferedImage copy(PageImage image) {
    int w = image.gray().cols();
    int h = image.gray().rows();
    byte[] pixels = new byte[w * h];
    image.gray().get(0, 0, pixels);
    BufferedImage canvas = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
    int[] rgb = new int[w];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        rgb[x] = (pixels[y * w + x] & 0xff) * 0x10101;
      }
      canvas.setRGB(0, y, w, 1, rgb, 0, w);
    }
    return canvas;
  }
}
