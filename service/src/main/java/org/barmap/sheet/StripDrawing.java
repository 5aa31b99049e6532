package org.barmap.sheet;

import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDPageContentStream;

/** Draws staves of added bars in the size of the part; all lengths in points. */
final class StripDrawing {
  private static final float POINTS = 72 / 25.4f;
  private static final float BAR = 38 * POINTS;
  private static final float HEAD = 24 * POINTS;
  private static final int LINES = 5;

  /** Nothing on a sheet is smaller. */
  private static final float LEAST_TYPE = 12;

  private final Flow flow;
  private final float space;
  private final String meter;
  private final String key;

  /** The key stands clear of the line that is cut along: points. */
  private static final float KEY_RISE = 3.5f;

  /**
   * Prepares strips.
   *
   * @param staff height of the staff in millimetres
   * @param meter "3/4", or empty
   * @param key as a player says it, or empty
   */
  StripDrawing(Flow flow, double staff, String meter, String key) {
    this.flow = flow;
    this.space = (float) staff * POINTS / (LINES - 1);
    this.meter = meter;
    this.key = key;
  }

  /** Draws bars, as many to a line as there is room for; a rest is one bar with its count. */
  void draw(List<String> names, boolean rest) throws IOException {
    if (rest) {
      line(List.of(label(names)), names.size());
      return;
    }
    int most = Math.max(1, (int) ((flow.width() - HEAD) / BAR));
    for (int from = 0; from < names.size(); from += most) {
      line(names.subList(from, Math.min(names.size(), from + most)), 0);
    }
  }

  private static String label(List<String> names) {
    int plus = names.get(0).indexOf('+');
    if (plus > 0) {
      return "after " + names.get(0).substring(0, plus); // bars nobody gave a name
    }
    return names.size() == 1 ? names.get(0) : names.get(0) + "\u2013" + names.get(names.size() - 1);
  }

  private void line(List<String> bars, int restBars) throws IOException {
    float staff = (LINES - 1) * space;
    float high = staff + 9 * space;
    float width = HEAD + bars.size() * BAR;
    float bottom = flow.reserve(high + 8);
    PDPageContentStream out = flow.drawing();
    float left = flow.left();
    out.setLineWidth(0.5f);
    out.setLineDashPattern(new float[] {4, 3}, 0);
    out.addRect(left, bottom, width, high);
    out.stroke();
    out.setLineDashPattern(new float[] {}, 0);
    float low = bottom + 3 * space;
    for (int i = 0; i < LINES; i++) {
      stroke(out, left, low + i * space, left + width, low + i * space, 0.6f);
    }
    if (!meter.isEmpty()) {
      int stroke = meter.indexOf('/');
      float figure = Math.max(LEAST_TYPE, 2.4f * space);
      flow.label(meter.substring(0, stroke), left + 2 * space, low + 2.2f * space, figure);
      flow.label(meter.substring(stroke + 1), left + 2 * space, low + 0.2f * space, figure);
    }
    if (!key.isEmpty()) {
      flow.label(key, left + 3, bottom + Math.max(KEY_RISE, 0.75f * space), LEAST_TYPE);
    }
    for (int i = 0; i < bars.size(); i++) {
      float from = left + HEAD + i * BAR;
      float type = Math.max(LEAST_TYPE, 2 * space);
      flow.label(bars.get(i), from + 2, low + staff + 1.2f * space, type);
      stroke(out, from + BAR, low, from + BAR, low + staff, 1);
      if (restBars > 0) {
        float named = flow.labelWidth(bars.get(i), type);
        rest(out, from, Math.max(BAR / 2, named + 2 * space), low, staff, restBars);
      }
    }
  }

  /** Draws a rest with its count behind the bar's name. */
  private void rest(
      PDPageContentStream out, float from, float count, float low, float staff, int bars)
      throws IOException {
    float middle = low + staff / 2;
    if (bars == 1) {
      out.addRect(from + BAR / 2 - space, middle + space / 2, 2 * space, space / 2);
      out.fill();
      return;
    }
    out.addRect(from + 2 * space, middle - space / 2, BAR - 4 * space, space);
    out.fill();
    stroke(out, from + 2 * space, middle - space, from + 2 * space, middle + space, 1.2f);
    float end = from + BAR - 2 * space;
    stroke(out, end, middle - space, end, middle + space, 1.2f);
    flow.label(Integer.toString(bars), from + count, low + staff + 1.2f * space, 3 * space);
  }

  private static void stroke(
      PDPageContentStream out, float x, float y, float toX, float toY, float wide)
      throws IOException {
    out.setLineWidth(wide);
    out.moveTo(x, y);
    out.lineTo(toX, toY);
    out.stroke();
  }
}
