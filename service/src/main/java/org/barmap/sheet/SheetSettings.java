package org.barmap.sheet;

import org.apache.pdfbox.pdmodel.common.PDRectangle;

/**
 * How sheets are printed.
 *
 * @param paper paper size
 * @param bigType letters half as large again
 */
public record SheetSettings(Paper paper, boolean bigType) {

  /** A4, usual type. */
  public static final SheetSettings USUAL = new SheetSettings(Paper.A4, false);

  /** A paper size. */
  public enum Paper {
    /** 210 × 297 mm. */
    A4,
    /** 8.5 × 11 in. */
    LETTER;

    PDRectangle size() {
      return this == A4 ? PDRectangle.A4 : PDRectangle.LETTER;
    }
  }

  /** Returns a size of type in points, never below 12. */
  float points(float usual) {
    return Math.max(12, bigType ? usual * 1.5f : usual);
  }
}
