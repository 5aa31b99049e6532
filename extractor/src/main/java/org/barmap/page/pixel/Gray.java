package org.barmap.page.pixel;

/**
 * Gray levels that more than one stage decides by, on images whose light was evened: paper is near
 * white then, on every page.
 */
public final class Gray {

  /** White, and what lies beyond an image. */
  public static final int WHITE = 255;

  /** Darker is ink: what signs are made of. */
  public static final int INK = 140;

  /** Darker is a stroke, barlines and the like: thin ones come out grayer than ink does. */
  public static final int STROKE = 150;

  private Gray() {}
}
