package org.barmap.exchange.region;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The sizes of a page's picture that are delivered: some fixed ones and the whole, as a IIIF image
 * service of level 0 does.
 */
public final class Sizes {

  /** Widths in pixels, besides the picture's own: a thumbnail, a phone, a screen, a large one. */
  private static final List<Integer> WIDTHS = List.of(200, 600, 1200, 2400);

  private static final Pattern WIDTH_AND_HEIGHT = Pattern.compile("(\\d{1,5}),(\\d{1,5})");

  /** Width and height in pixels. */
  public record Size(int width, int height) {
    @Override
    public String toString() {
      return width + "," + height;
    }
  }

  private Sizes() {}

  /** Returns the sizes of a picture, the smallest first, its own last. */
  public static List<Size> of(int width, int height) {
    List<Size> sizes = new ArrayList<>();
    for (int small : WIDTHS) {
      if (small < width) {
        // as the picture is made smaller: halves to the even number
        sizes.add(new Size(small, (int) Math.max(1, Math.rint((double) small / width * height))));
      }
    }
    sizes.add(new Size(width, height));
    return List.copyOf(sizes);
  }

  /**
   * Returns the size a request names, "max" or "600,849"; empty where it is none of those there
   * are.
   */
  public static Optional<Size> named(String said, int width, int height) {
    List<Size> sizes = of(width, height);
    if (said.equals("max")) {
      return Optional.of(sizes.get(sizes.size() - 1));
    }
    Matcher two = WIDTH_AND_HEIGHT.matcher(said);
    return two.matches()
        ? sizes.stream().filter(s -> s.toString().equals(said)).findFirst()
        : Optional.empty();
  }
}
