package org.barmap.browser.planted;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How long a person would take, counted and not slept: what they look at, point at and press. The
 * times of hand and eye are those of the keystroke-level model (Card, Moran and Newell, "The
 * Keystroke-Level Model for User Performance Time with Interactive Systems", 1980), from memory: a
 * key 0.28 s, pointing at something 1.1 s, the button of the mouse 0.1 s down and 0.1 s up, the
 * hand from the mouse to the keys or back 0.4 s. To look at one thing and judge it takes 1.2 s.
 */
public final class Person {

  private static final double LOOK = 1.2;
  private static final double KEY = 0.28;
  private static final double POINT = 1.1;
  private static final double BUTTON = 0.1;
  private static final double HAND = 0.4;

  /** What was done for one purpose. */
  private record Line(String what, int actions, double seconds, long bytes, double waited) {}

  private final List<Line> log = new ArrayList<>();
  private boolean onKeys;
  private double seconds;
  private int actions;
  private int most;

  /** Looks at one thing and judges it. */
  public void looks() {
    seconds += LOOK;
  }

  /** Presses one key, which is one action. */
  public void presses() {
    toKeys(true);
    seconds += KEY;
    actions++;
  }

  /** Types something and Enter, which is one action. */
  public void types(String text) {
    toKeys(true);
    seconds += KEY * (text.length() + 1);
    actions++;
  }

  /** Points at something and clicks, or clicks twice, which is one action. */
  public void clicks(int times) {
    toKeys(false);
    seconds += POINT + 2 * BUTTON * times;
    actions++;
  }

  private void toKeys(boolean keys) {
    seconds += keys == onKeys ? 0 : HAND;
    onKeys = keys;
  }

  /** Returns the actions since the last line of the log. */
  public int actions() {
    return actions;
  }

  /** Returns the seconds since the last line of the log. */
  public double seconds() {
    return seconds;
  }

  /**
   * Writes what was done since the last line into the log.
   *
   * @param bytes that came over the net for it
   * @param waited how long the desk really took to answer, seconds, on a machine that may do other
   *     things as well; not counted
   */
  public void notes(String what, long bytes, double waited) {
    log.add(new Line(what, actions, seconds, bytes, waited));
    most = Math.max(most, actions);
    seconds = 0;
    actions = 0;
  }

  /** Returns the log with its sums. */
  public String log() {
    StringBuilder text = new StringBuilder();
    for (Line l : log) {
      text.append(line(l));
    }
    Line sum =
        new Line(
            "in all",
            log.stream().mapToInt(Line::actions).sum(),
            log.stream().mapToDouble(Line::seconds).sum(),
            log.stream().mapToLong(Line::bytes).sum(),
            log.stream().mapToDouble(Line::waited).sum());
    return text.append(line(sum)).toString();
  }

  private static String line(Line l) {
    return String.format(
        Locale.ROOT,
        "  %-44s %2d actions %5.1f s %7d bytes, desk took %.2f s%n",
        l.what,
        l.actions,
        l.seconds,
        l.bytes,
        l.waited);
  }
}
