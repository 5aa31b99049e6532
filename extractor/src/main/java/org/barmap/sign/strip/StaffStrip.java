package org.barmap.sign.strip;

import java.util.List;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.sign.set.InkSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.staff.Staff;
import org.barmap.staff.Strip;
import org.jspecify.annotations.Nullable;
import org.opencv.core.Rect;

/** The strip of a staff; of the finer one only what is looked at is ever cut. */
public final class StaffStrip implements StripImage {

  private static final InkSettings.Room SET = SignSettings.STANDARD.ink().room();

  private final PageImage page;
  private final Staff staff;
  private final double room;
  private final int over;
  private final Strip coarse;
  private volatile byte @Nullable [] above;
  private volatile @Nullable List<InkPiece> pieces;

  /** Takes the spaces above the middle line that belong to this staff. */
  public StaffStrip(PageImage page, Staff staff, double room) {
    this.room = Math.min(room, SET.most());
    this.over = (int) Math.max(Strip.MIDDLE + SET.above(), Math.ceil(this.room)) - Strip.MIDDLE;
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
    return 2 * SPACE * SET.before();
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
  public List<InkPiece> pieces() {
    List<InkPiece> p = pieces;
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
