package org.barmap.sheet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.PDPageContentStream.AppendMode;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.image.JPEGFactory;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

/** Text that flows down the pages of one sheet. */
final class Flow implements AutoCloseable {
  private static final float MARGIN = 45;
  private static final float FOOT = 70;
  private static final float LEADING = 1.3f;

  /** The most of a line's width that stands at its right edge. */
  private static final float MOST_RIGHT = 0.7f;

  private final PDDocument document;
  private final Typeface type;
  private final SheetSettings settings;
  private final PDRectangle size;
  private final String footer;
  private final List<PDPage> pages = new ArrayList<>();
  private PDPageContentStream out;
  private float y;

  Flow(PDDocument document, Typeface type, SheetSettings settings, String footer)
      throws IOException {
    this.document = document;
    this.type = type;
    this.settings = settings;
    this.size = settings.paper().size();
    this.footer = footer;
    this.out = page();
  }

  private PDPageContentStream page() throws IOException {
    PDPage page = new PDPage(size);
    document.addPage(page);
    pages.add(page);
    y = size.getHeight() - MARGIN;
    return new PDPageContentStream(document, page);
  }

  private void next() throws IOException {
    out.close();
    out = page();
  }

  float width() {
    return size.getWidth() - 2 * MARGIN;
  }

  private float points(float usual) {
    return settings.points(usual);
  }

  /** Starts a new page unless so much room is left, in lines of the usual type. */
  void keep(int lines) throws IOException {
    keep(lines, 0);
  }

  /** As {@link #keep(int)}, with so many points more. */
  void keep(int lines, float more) throws IOException {
    float needed = lines * points(13) * LEADING + more;
    if (y - needed < FOOT && y < size.getHeight() - MARGIN) {
      next();
    }
  }

  /** Starts a new page unless nothing stands on this one yet. */
  void side() throws IOException {
    if (y < size.getHeight() - MARGIN) {
      next();
    }
  }

  /** Returns how many points text takes, as {@link #text} writes it. */
  float high(String text, float usual, boolean bold, float indent) {
    float points = points(usual);
    return wrapped(type.shown(text), bold, points, width() - indent).size() * points * LEADING;
  }

  void space(float usual) {
    y -= usual;
  }

  void title(String text) throws IOException {
    text(text, 22, true, 0);
    space(4);
    rule(1.5f);
    space(8);
  }

  void heading(String text) throws IOException {
    heading(text, 4);
  }

  /** Writes a heading on the page on which so many lines of what it is over have room. */
  void heading(String text, int lines) throws IOException {
    keep(2 + Math.min(4, lines));
    space(6);
    text(text, 15, true, 0);
  }

  void line(String text) throws IOException {
    text(text, 13, false, 0);
  }

  void indented(String text, float by) throws IOException {
    text(text, 13, false, by);
  }

  /** Writes text over as many lines as it needs. */
  void text(String text, float usual, boolean bold, float indent) throws IOException {
    float points = points(usual);
    for (String line : wrapped(type.shown(text), bold, points, width() - indent)) {
      if (y - points * LEADING < FOOT) {
        next();
      }
      y -= points * LEADING;
      put(line, MARGIN + indent, bold, points);
    }
  }

  /**
   * Writes two texts in one line, the second at the right edge; below each other where the second
   * leaves too little room for the first.
   */
  void pair(String left, String right, boolean bold) throws IOException {
    float points = points(14);
    String shownRight = type.shown(right);
    float rightWidth = type.width(shownRight, bold, points);
    if (rightWidth > width() * MOST_RIGHT) {
      text(left, 14, bold, 0);
      text(right, 14, bold, 18);
      return;
    }
    List<String> lines = wrapped(type.shown(left), bold, points, width() - rightWidth - 12);
    for (int i = 0; i < lines.size(); i++) {
      if (y - points * LEADING < FOOT) {
        next();
      }
      y -= points * LEADING;
      put(lines.get(i), MARGIN, bold, points);
      if (i == 0) {
        put(shownRight, MARGIN + width() - rightWidth, bold, points);
      }
    }
  }

  /** Writes text behind a box to tick, which may be ticked already. */
  void tick(String text, boolean ticked) throws IOException {
    float points = points(13);
    if (y - points * LEADING < FOOT) {
      next();
    }
    float side = points * 0.8f;
    out.setLineWidth(1);
    float low = y - points * LEADING - 1;
    out.addRect(MARGIN, low, side, side);
    if (ticked) {
      out.moveTo(MARGIN + side * 0.2f, low + side * 0.5f);
      out.lineTo(MARGIN + side * 0.45f, low + side * 0.2f);
      out.lineTo(MARGIN + side * 0.85f, low + side * 0.85f);
    }
    out.stroke();
    text(text, 13, false, side + 10);
  }

  /**
   * Puts a picture with small words under it, both on one page.
   *
   * @param jpeg the picture
   * @param most its height in points at the most
   */
  void picture(byte[] jpeg, float most, String words) throws IOException {
    PDImageXObject image = JPEGFactory.createFromByteArray(document, jpeg);
    float scale = Math.min(width() / image.getWidth(), most / image.getHeight());
    float high = image.getHeight() * scale;
    float points = points(12);
    int lines = wrapped(type.shown(words), false, points, width()).size();
    if (y - high - 6 - lines * points * LEADING < FOOT) {
      next();
    }
    y -= high + 6;
    out.drawImage(image, MARGIN, y, image.getWidth() * scale, high);
    text(words, 12, false, 0);
  }

  /** Keeps room for a drawing on one page; returns the height of its lower edge. */
  float reserve(float high) throws IOException {
    if (y - high < FOOT) {
      next();
    }
    y -= high;
    return y;
  }

  /** Returns what is drawn on. */
  PDPageContentStream drawing() {
    return out;
  }

  float left() {
    return MARGIN;
  }

  /** Returns how wide a word in a drawing is. */
  float labelWidth(String text, float points) {
    return type.width(type.shown(text), true, points);
  }

  /** Writes a word into a drawing, in its own size. */
  void label(String text, float x, float low, float points) throws IOException {
    out.beginText();
    out.setFont(type.font(true), points);
    out.newLineAtOffset(x, low);
    out.showText(type.shown(text));
    out.endText();
  }

  void rule(float thickness) throws IOException {
    out.setLineWidth(thickness);
    float below = points(13) * 0.4f;
    out.moveTo(MARGIN, y - below);
    out.lineTo(MARGIN + width(), y - below);
    out.stroke();
    y -= below + 3;
  }

  private void put(String shown, float x, boolean bold, float points) throws IOException {
    out.beginText();
    out.setFont(type.font(bold), points);
    out.newLineAtOffset(x, y);
    out.showText(shown);
    out.endText();
  }

  private List<String> wrapped(String shown, boolean bold, float points, float room) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : shown.split(" ")) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (type.width(longer, bold, points) <= room) {
        line.setLength(0);
        line.append(longer);
        continue;
      }
      if (!line.isEmpty()) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(broken(word, bold, points, room, lines));
    }
    lines.add(line.toString());
    return lines;
  }

  /** Breaks a word longer than a line; returns what is left of it. */
  private String broken(String word, boolean bold, float points, float room, List<String> lines) {
    String rest = word;
    while (type.width(rest, bold, points) > room) {
      int end = rest.offsetByCodePoints(0, 1);
      while (end < rest.length()
          && type.width(rest.substring(0, rest.offsetByCodePoints(end, 1)), bold, points) <= room) {
        end = rest.offsetByCodePoints(end, 1);
      }
      if (end >= rest.length()) {
        break;
      }
      lines.add(rest.substring(0, end));
      rest = rest.substring(end);
    }
    return rest;
  }

  /** Writes the foot of every page. */
  @Override
  public void close() throws IOException {
    out.close();
    float points = 12;
    for (int i = 0; i < pages.size(); i++) {
      try (PDPageContentStream foot =
          new PDPageContentStream(document, pages.get(i), AppendMode.APPEND, true, true)) {
        List<String> lines = wrapped(type.shown(footer), false, points, width() - 60);
        for (int k = 0; k < Math.min(3, lines.size()); k++) {
          foot.beginText();
          foot.setFont(type.font(false), points);
          foot.newLineAtOffset(MARGIN, FOOT - 22 - k * points * 1.15f);
          foot.showText(lines.get(k));
          foot.endText();
        }
        String count = (i + 1) + " / " + pages.size();
        foot.beginText();
        foot.setFont(type.font(false), points);
        foot.newLineAtOffset(MARGIN + width() - type.width(count, false, points), FOOT - 22);
        foot.showText(count);
        foot.endText();
      }
    }
  }
}
