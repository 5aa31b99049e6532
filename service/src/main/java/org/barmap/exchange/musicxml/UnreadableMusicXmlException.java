package org.barmap.exchange.musicxml;

/** A file that is no MusicXML we can use; the message says why in one sentence. */
public final class UnreadableMusicXmlException extends Exception {
  private static final long serialVersionUID = 1L;

  /** Takes what is wrong and what to do about it. */
  public UnreadableMusicXmlException(String message) {
    super(message);
  }

  /** Takes what is wrong and what the parser said. */
  public UnreadableMusicXmlException(String message, Throwable cause) {
    super(message, cause);
  }
}
