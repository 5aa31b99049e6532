package org.barmap.fit;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.sign.hand.HandWriting;
import org.barmap.staff.FoundSystem;
import org.barmap.staff.StaffFinder;

/**
 * Made pages with the ink that was written on them by hand beside them as {@code NAME.hand.png}.
 */
final class HandPages {

  /** Darker than this is ink in the page, and in what was written; gray levels. */
  static final int INK = 205;

  private static final String MASK = ".hand.png";

  private HandPages() {}

  /** What is done with a page. */
  interface Use {
    /**
     * @param mask what was written on it, in the page's pixels; none where nothing was
     */
    void page(Path file, PageImage page, List<FoundSystem> systems, Optional<BufferedImage> mask)
        throws IOException;
  }

  /** Goes through the pages of folders. */
  static void each(List<Path> folders, Use use) throws IOException {
    for (Path folder : folders) {
      List<Path> files;
      try (Stream<Path> all = Files.list(folder)) {
        files = all.filter(HandPages::isPage).sorted().toList();
      }
      for (Path file : files) {
        try (PageSource source = new PageSource(List.of(file))) {
          if (source.next() instanceof PageResult.Loaded loaded) {
            try (PageImage page = loaded.page()) {
              use.page(file, page, StaffFinder.find(page), mask(file));
            }
          }
        }
      }
    }
  }

  private static boolean isPage(Path file) {
    String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
    return (name.endsWith(".png") || name.endsWith(".jpg")) && !name.endsWith(MASK);
  }

  private static Optional<BufferedImage> mask(Path file) throws IOException {
    String name = file.getFileName().toString();
    Path mask = file.resolveSibling(name.substring(0, name.lastIndexOf('.')) + MASK);
    return Files.exists(mask) ? Optional.ofNullable(ImageIO.read(mask.toFile())) : Optional.empty();
  }

  /** Tells whether a point of the working image was written by hand. */
  static boolean isWritten(PageImage page, BufferedImage mask, double x, double y) {
    Point p = page.toFile(x, y);
    int u = (int) p.x();
    int v = (int) p.y();
    return u >= 0
        && v >= 0
        && u < mask.getWidth()
        && v < mask.getHeight()
        && mask.getRaster().getSample(u, v, 0) < INK;
  }

  /** Returns the share of a stroke's ink that was written by hand. */
  static double share(PageImage page, byte[] gray, HandWriting.Candidate c, BufferedImage mask) {
    int width = page.gray().cols();
    int w = c.right() - c.left();
    boolean[] seen = new boolean[w * (c.bottom() - c.top())];
    List<int[]> open = new ArrayList<>();
    open.add(new int[] {c.begin(), c.top()});
    seen[c.begin() - c.left()] = true;
    int ink = 0;
    int written = 0;
    while (!open.isEmpty()) {
      int[] at = open.remove(open.size() - 1);
      ink++;
      if (isWritten(page, mask, at[0] + 0.5, at[1] + 0.5)) {
        written++;
      }
      for (int y = Math.max(c.top(), at[1] - 1); y < Math.min(c.bottom(), at[1] + 2); y++) {
        for (int x = Math.max(c.left(), at[0] - 1); x < Math.min(c.right(), at[0] + 2); x++) {
          int i = (y - c.top()) * w + x - c.left();
          if (!seen[i] && (gray[y * width + x] & 0xff) < INK) {
            seen[i] = true;
            open.add(new int[] {x, y});
          }
        }
      }
    }
    return written / (double) ink;
  }

  static byte[] gray(PageImage page) {
    byte[] gray = new byte[page.gray().cols() * page.gray().rows()];
    page.gray().get(0, 0, gray);
    return gray;
  }
}
