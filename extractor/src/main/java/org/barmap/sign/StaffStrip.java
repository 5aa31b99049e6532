package org.barmap.sign;

import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.staff.Staff;
import org.barmap.staff.Strip;
import org.jspecify.annotations.Nullable;

/** The strip of a staff; the finer one is cut only when a numeral or word is read in it. */
final class StaffStrip implements StripImage {

  /** Marks may stand this high over the middle line, spaces, and more where there is room. */
  private static final int ABOVE = Strip.MIDDLE + 4;

  /** Nothing of a staff stands higher, spaces. */
  private static final int MOST = 36;

  private final PageImage page;
  private final Staff staff;
  private final double room;
  private final Strip coarse;
  private @Nullable Fine fine;

  /** Takes the spaces above the middle line that belong to this staff. */
  StaffStrip(PageImage page, Staff staff, double room) {
    this.room = Math.min(room, MOST);
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
      int above = (int) Math.max(ABOVE, Math.ceil(room));
      Strip strip = Strip.cut(page, staff, 2 * SPACE, above, Strip.HEIGHT - Strip.MIDDLE);
      f = new Fine(strip.gray(), strip.width(), 2 * SPACE * (above - Strip.MIDDLE));
      fine = f;
    }
    return f;
  }

  @Override
  public double room() {
    return room;
  }

  @Override
  public Point toFile(double u, double v) {
    return coarse.toFile(u, v);
  }
}
