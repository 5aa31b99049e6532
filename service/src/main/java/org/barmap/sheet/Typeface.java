package org.barmap.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.util.HashMap;
import java.util.Map;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/** The two fonts of a document, and what is written where they lack a character. */
final class Typeface {
  private static final Map<Integer, String> INSTEAD =
      Map.of(
          0x2669, "q", 0x266A, "e", 0x2016, "||", 0x266D, "b", 0x266F, "#", 0x2212, "-", 0x2011,
          "-");

  private final PDFont regular;
  private final PDFont bold;
  private final Map<Integer, String> known = new HashMap<>();

  Typeface(PDDocument document) throws IOException {
    this.regular = load(document, "LiberationSans-Regular.ttf");
    this.bold = load(document, "LiberationSans-Bold.ttf");
  }

  private static PDFont load(PDDocument document, String name) throws IOException {
    try (InputStream in = Typeface.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IOException(name + " is missing from the jar");
      }
      TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(in));
      document.registerTrueTypeFontForClosing(font);
      // "fi" as one sign is as wide here and looks the same; to look for it in every line takes
      // most of the time a sheet takes
      font.setEnableGsub(false);
      return PDType0Font.load(document, font, true);
    }
  }

  PDFont font(boolean isBold) {
    return isBold ? bold : regular;
  }

  /** Returns text with every character the fonts can show, whatever was in it. */
  String shown(String text) {
    StringBuilder shown = new StringBuilder();
    text.codePoints().forEach(c -> shown.append(known.computeIfAbsent(c, this::character)));
    return shown.toString();
  }

  private String character(int codePoint) {
    if (Character.isWhitespace(codePoint) || Character.isSpaceChar(codePoint)) {
      return " ";
    }
    if (Character.isISOControl(codePoint)
        || Character.getType(codePoint) == Character.FORMAT
        || Character.getType(codePoint) == Character.SURROGATE) {
      return "";
    }
    String itself = Character.toString(codePoint);
    if (!INSTEAD.containsKey(codePoint) && has(itself)) {
      return itself;
    }
    return INSTEAD.getOrDefault(codePoint, "?");
  }

  private boolean has(String text) {
    try {
      regular.encode(text);
      bold.encode(text);
      return true;
    } catch (IOException | IllegalArgumentException e) {
      return false;
    }
  }

  /** Returns the width of shown text in points. */
  float width(String shown, boolean isBold, float size) {
    try {
      return font(isBold).getStringWidth(shown) / 1000 * size;
    } catch (IOException e) {
      throw new IllegalStateException(e); // shown text is encodable
    }
  }
}
