package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.page.pixel.Spread;
import org.barmap.page.pixel.Step;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.rule.NumberHeading;
import org.barmap.sign.rule.Overhead;
import org.barmap.sign.rule.StripSign;
import org.barmap.sign.strip.StripImage;

/** Reads the lines of text over staves and picks out the headings of musical numbers. */
final class HeadingReader {

  /** A heading stands at least this high over the middle line, strip pixels. */
  private static final double LOWEST = 5.0 * StripImage.SPACE;

  /** Where only headings stand, strip pixels over the middle line. */
  private static final double HIGH = 6.5 * StripImage.SPACE;

  /** Letters of headings are mostly larger than this, strip pixels. */
  private static final double LARGE = 1.8 * StripImage.SPACE;

  /** How sure a text worded like a heading makes. */
  private static final double WORDED = 0.9;

  /** Share of a box within another that makes them the same text. */
  private static final double SAME = 0.4;

  private HeadingReader() {}

  /** Signs of one strip before and after their text was read. */
  record Found(StripImage strip, List<RawSign> raw, List<Sign> signs) {}

  /** Returns the signs of each strip with its headings in place of what the network called so. */
  static List<List<Sign>> settle(TextReader text, List<Found> strips) {
    List<TextReader.Task> tasks =
        Spread.map(strips.size(), i -> lines(strips.get(i))).stream()
            .flatMap(List::stream)
            .toList();
    List<Reading> read = text.lines(tasks, (task, said) -> isWorthIt(task, said, strips));
    List<List<Sign>> all = new ArrayList<>();
    for (Found f : strips) {
      all.add(settle(f, tasks, read));
    }
    return all;
  }

  private static List<TextReader.Task> lines(Found f) {
    long start = Step.start();
    List<TextReader.Task> lines = new ArrayList<>();
    for (RawSign line : Overhead.lines(f.strip)) {
      boolean high = line.y1() < StripImage.MIDDLE - LOWEST;
      boolean other =
          line.height() < LARGE
              && f.raw.stream().anyMatch(s -> s.kind() != SignKind.HEADING && covers(s, line));
      if (high && !other) {
        lines.add(new TextReader.Task(f.strip, line));
      }
    }
    Step.LOOKS.done(start);
    return lines;
  }

  /** Tells whether a line may be a heading, so that it pays to read it with both models. */
  private static boolean isWorthIt(TextReader.Task task, String said, List<Found> strips) {
    boolean placed = isPlaced(task.strip(), task.sign());
    return placed
        || NumberHeading.of(said, false).isPresent()
        || strips.stream()
            .filter(f -> f.strip == task.strip())
            .flatMap(f -> f.raw.stream())
            .anyMatch(s -> s.kind() == SignKind.HEADING && s.inside(task.sign()) > SAME);
  }

  private static List<Sign> settle(Found f, List<TextReader.Task> tasks, List<Reading> read) {
    List<Sign> headings = new ArrayList<>();
    List<RawSign> replaced = new ArrayList<>();
    for (int i = 0; i < tasks.size(); i++) {
      RawSign line = tasks.get(i).sign();
      if (tasks.get(i).strip() != f.strip) {
        continue;
      }
      List<RawSign> seen =
          f.raw.stream()
              .filter(s -> s.kind() == SignKind.HEADING && s.inside(line) > SAME)
              .toList();
      Optional<String> worded = NumberHeading.of(read.get(i).text(), isPlaced(f.strip, line));
      if (worded.isPresent() || !seen.isEmpty()) {
        String said = worded.orElse(read.get(i).text());
        if (said.endsWith(".") && worded.isPresent()) {
          said = said + title(f.strip, line, tasks, read);
        }
        double seenSure = seen.stream().mapToDouble(RawSign::probability).max().orElse(0);
        RawSign sign =
            new RawSign(
                SignKind.HEADING,
                line.x0(),
                line.y0(),
                line.x1(),
                line.y1(),
                worded.isPresent() ? Math.max(WORDED, seenSure) : seenSure,
                List.of());
        headings.add(
            StripSign.of(f.strip, sign, List.of(new Reading(said, read.get(i).probability()))));
        replaced.addAll(seen);
        f.raw.stream()
            .filter(s -> s.kind() == SignKind.WORD && s.inside(line) > SAME)
            .forEach(replaced::add);
      }
    }
    List<Sign> signs = new ArrayList<>();
    for (Sign s : f.signs) {
      boolean gone =
          (s.kind() == SignKind.HEADING || s.kind() == SignKind.WORD)
              && replaced.stream().anyMatch(r -> StripImage.along(r.x0()) == s.from());
      if (!gone) {
        signs.add(s.kind() == SignKind.HEADING ? worded(s) : s);
      }
    }
    signs.addAll(headings);
    signs.sort(java.util.Comparator.comparingDouble(Sign::at));
    return List.copyOf(signs);
  }

  private static boolean covers(RawSign sign, RawSign line) {
    double w = Math.min(sign.x1(), line.x1()) - Math.max(sign.x0(), line.x0());
    return sign.inside(line) > SAME && w > 0.6 * line.width();
  }

  private static boolean isPlaced(StripImage strip, RawSign line) {
    boolean left = StripImage.along(line.x0()) < 3;
    boolean middle = Math.abs(line.centre() - strip.width() / 2.0) < 0.06 * strip.width();
    return line.y1() < StripImage.MIDDLE - HIGH
        && line.height() > 1.3 * StripImage.SPACE
        && (left || middle);
  }

  private static Sign worded(Sign s) {
    List<Reading> readings =
        s.readings().stream()
            .map(
                r ->
                    new Reading(NumberHeading.of(r.text(), true).orElse(r.text()), r.probability()))
            .toList();
    return new Sign(
        s.kind(), s.from(), s.to(), s.top(), s.bottom(), s.outline(), s.probability(), readings);
  }

  /** The line of text straight under "No. 7" or beside it, of like size, is its title. */
  private static String title(
      StripImage strip, RawSign label, List<TextReader.Task> tasks, List<Reading> read) {
    for (int i = 0; i < tasks.size(); i++) {
      RawSign t = tasks.get(i).sign();
      double below = t.y0() - label.y1();
      boolean under = tasks.get(i).strip() == strip && below > 0 && below < 1.2 * label.height();
      boolean like = t.height() > 0.7 * label.height() && t.height() < 1.6 * label.height();
      boolean beside = tasks.get(i).strip() == strip && isBeside(label, t);
      if (like && (beside || (under && t.x0() < label.x1() && t.x1() > label.x0()))) {
        return " " + read.get(i).text();
      }
    }
    return "";
  }

  /** On the same line of text and to the right, however far: titles often stand in the middle. */
  private static boolean isBeside(RawSign label, RawSign text) {
    double apart = Math.abs((text.y0() + text.y1()) - (label.y0() + label.y1())) / 2;
    return text.x0() > label.x1() && apart < 0.6 * label.height();
  }
}
