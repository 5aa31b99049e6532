package org.barmap.web.picture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Outline;
import org.barmap.page.PagePictures;

/** Cuts bars with what stands around them out of a page's picture. */
public final class PageParts {

  private PageParts() {}

  /** Returns a bar entry and those after it on the same line. */
  public static List<Bar> lineFrom(BarMap map, Bar bar) {
    return map.bars().subList(map.indexOf(bar.id()), map.bars().size()).stream()
        .takeWhile(b -> b.page() == bar.page() && b.system() == bar.system())
        .toList();
  }

  /**
   * Returns a part of a page as JPEG, as it looks.
   *
   * @param picture the page's picture
   * @param bars entries of one system, in order; at least one
   * @param width wanted, pixels
   * @throws IOException when the picture can't be read
   */
  public static byte[] jpeg(Path picture, List<Bar> bars, int width) throws IOException {
    return cut(picture, bars, width, false);
  }

  /** As {@link #jpeg}, in black on white, for paper. */
  public static byte[] forPaper(Path picture, List<Bar> bars, int width) throws IOException {
    return cut(picture, bars, width, true);
  }

  private static byte[] cut(Path picture, List<Bar> bars, int width, boolean paper)
      throws IOException {
    double left = Double.MAX_VALUE;
    double top = Double.MAX_VALUE;
    double right = 0;
    double bottom = 0;
    double space = 4;
    for (Bar bar : bars) {
      Outline o = bar.outline();
      space = Math.max(space, o.topLeft().distance(o.bottomLeft()) / 4);
      left = Math.min(left, Math.min(o.topLeft().x(), o.bottomLeft().x()));
      right = Math.max(right, Math.max(o.topRight().x(), o.bottomRight().x()));
      top = Math.min(top, Math.min(o.topLeft().y(), o.topRight().y()));
      bottom = Math.max(bottom, Math.max(o.bottomLeft().y(), o.bottomRight().y()));
    }
    PagePictures.Region part =
        new PagePictures.Region(
            left - 3 * space, top - 8 * space, right + 3 * space, bottom + 6 * space);
    return paper
        ? PagePictures.forPaper(picture, part, space, width)
        : PagePictures.part(picture, part, width);
  }
}
