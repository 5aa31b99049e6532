package org.barmap.bench.trust;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import javax.imageio.ImageIO;
import org.barmap.cli.run.Home;

/** The first lines of pages of the demo book: pictures that are read in a moment. */
final class Strips {

  private static final List<String> PAGES = List.of("page-01.png", "page-06.png", "page-08.png");

  /** Where they begin and how high they are, in pixels of pages of 3,600. */
  private static final int TOP = 300;

  private static final int HEIGHT = 700;

  private Strips() {}

  /** Returns PNG files by name. */
  static Map<String, byte[]> pictures() throws IOException {
    Map<String, byte[]> pictures = new TreeMap<>();
    for (String name : PAGES) {
      Path file = Home.demoBook().resolve(name);
      BufferedImage page = ImageIO.read(file.toFile());
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      ImageIO.write(page.getSubimage(0, TOP, page.getWidth(), HEIGHT), "png", out);
      pictures.put(name, out.toByteArray());
    }
    return pictures;
  }
}
