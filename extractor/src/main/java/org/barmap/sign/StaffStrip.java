package org.barmap.sign;

import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.staff.Staff;
import org.barmap.staff.Strip;
import org.jspecify.annotations.Nullable;

/** The strip of a staff; the finer one is cut only when a numeral or word is read in it. */
final class StaffStrip implements StripImage {

  /** Marks may stand this much higher than the strip, spaces. */
  private static final int ABOVE = 4;

  private final PageImage page;
  private final Staff staff;
  private final Strip coarse;
  private @Nullable Fine fine;

  StaffStrip(PageImage page, Staff staff) {
    this.page = page;
    this.staff = staff;
    this.coarse = Strip.cut(page, staff, SPACE);
  }

  @Override
  public int width() {
    return coarse.width();
  }

  @Override
  public byte[] gray() {
    return coarse.gray();
  }

  @Override
  public Fine fine() {
    Fine f = fine;
    if (f == null) {
      Strip strip =
          Strip.cut(page, staff, 2 * SPACE, Strip.MIDDLE + ABOVE, Strip.HEIGHT - Strip.MIDDLE);
      f = new Fine(strip.gray(), strip.width(), 2 * SPACE * ABOVE);
      fine = f;
    }
    return f;
  }

  @Override
  public Point toFile(double u, double v) {
    return coarse.toFile(u, v);
  }
}
