package org.barmap.sign.strip;

import java.util.List;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.staff.Staff;
import org.barmap.staff.Strip;
import org.jspecify.annotations.Nullable;
import org.opencv.core.Rect;

/** The strip of a staff; of the finer one only what is looked at is ever cut. */
public final class StaffStrip implements StripImage {

  /** Marks may stand this high over the middle line, spaces, and more where there is room. */
  private static final int ABOVE = Strip.MIDDLE + 4;

  /** Nothing of a staff stands higher, spaces. */
  private static final int MOST = 36;

  /** Numbers in front of a staff begin at most this far left of its strip, spaces. */
  private static final int BEFORE = 2;

  private final PageImage page;
  private final Staff staff;
  private final double room;
  private final int over;
  private final Strip coarse;
  private volatile byte @Nullable [] above;
  private volatile @Nullable List<InkOver.Piece> pieces;

  /** Takes the spaces above the middle line that belong to this staff. */
  public StaffStrip(PageImage page, Staff staff, double room) {
    this.room = Math.min(room, MOST);
    this.over = (int) Math.max(ABOVE, Math.ceil(this.room)) - Strip.MIDDLE;
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
  public byte[] fine(int left, int top, int right, int bottom) {
    return Strip.part(page, staff, 2 * SPACE, new Rect(left, top, right - left, bottom - top));
  }

  @Override
  public byte[] rough(int left, int top, int right, int bottom) {
    return Strip.rough(page, staff, 2 * SPACE, new Rect(left, top, right - left, bottom - top));
  }

  @Override
  public int fineAbove() {
    return 2 * SPACE * over;
  }

  @Override
  public int fineBefore() {
    return 2 * SPACE * BEFORE;
  }

  @Override
  public byte[] above() {
    byte[] a = above;
    if (a == null) {
      int rows = SPACE * over;
      a = Strip.part(page, staff, SPACE, new Rect(0, -rows, width(), rows));
      above = a;
    }
    return a;
  }

  @Override
  public List<InkOver.Piece> pieces() {
    List<InkOver.Piece> p = pieces;
    if (p == null) {
      p = StripImage.super.pieces();
      pieces = p;
    }
    return p;
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
