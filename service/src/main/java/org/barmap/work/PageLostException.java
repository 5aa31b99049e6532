package org.barmap.work;

/** A page can't be read, for a reason to be told to the player. */
public final class PageLostException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** Takes one sentence. */
  public PageLostException(String sentence) {
    super(sentence);
  }
}
