package org.barmap.exchange.musicxml.write;

/** Text that may stand in XML 1.0. */
public final class XmlText {

  private XmlText() {}

  /** Returns the text without the characters XML has no place for. */
  public static String clean(String text) {
    StringBuilder clean = new StringBuilder(text.length());
    text.codePoints()
        .filter(
            c ->
                c == '\t'
                    || c == '\n'
                    || c == '\r'
                    || (c >= 0x20 && c <= 0xD7FF)
                    || (c >= 0xE000 && c <= 0xFFFD)
                    || c >= 0x10000)
        .forEach(clean::appendCodePoint);
    return clean.toString();
  }
}
