package org.barmap.page.pixel;

import org.barmap.map.Point;

/**
 * The rectangle that holds a warped picture.
 *
 * @param map the warp, moved so that the rectangle starts at the origin
 * @param width pixels
 * @param height pixels
 */
public record Frame(Homography map, int width, int height) {

  private static final int CORNERS = 4;

  /** Returns the smallest frame around a picture of the given size after a warp. */
  public static Frame of(Homography warp, double width, double height) {
    double left = Double.MAX_VALUE;
    double top = Double.MAX_VALUE;
    double right = -Double.MAX_VALUE;
    double bottom = -Double.MAX_VALUE;
    for (int i = 0; i < CORNERS; i++) {
      Point p = warp.apply((i & 1) * width, (i >> 1) * height);
      left = Math.min(left, p.x());
      right = Math.max(right, p.x());
      top = Math.min(top, p.y());
      bottom = Math.max(bottom, p.y());
    }
    return new Frame(
        warp.then(Homography.shift(-left, -top)),
        (int) Math.ceil(right - left),
        (int) Math.ceil(bottom - top));
  }
}
