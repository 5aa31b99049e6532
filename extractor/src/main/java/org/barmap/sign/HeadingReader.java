package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.page.pixel.Spread;
import org.barmap.page.pixel.WorkStep;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.rule.FolioLine;
import org.barmap.sign.rule.NumberHeading;
import org.barmap.sign.rule.Overhead;
import org.barmap.sign.rule.StripSign;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.set.TextSettings;
import org.barmap.sign.strip.StripImage;

/** Reads the lines of text over staves and picks out the headings of musical numbers. */
final class HeadingReader {

  private static final TextSettings.Headings SET = SignSettings.STANDARD.text().headings();

  private static final TextSettings.Titles TITLES = SignSettings.STANDARD.text().titles();

  private HeadingReader() {}

  /** Signs of one strip before and after their text was read. */
  record StripSigns(StripImage strip, List<RawSign> raw, List<Sign> signs) {}

  /**
   * What the lines of text over staves made of the signs.
   *
   * @param signs of each strip
   * @param folio the page's own number over its first staff, where one was seen
   */
  record Settled(List<List<Sign>> signs, Optional<Folio> folio) {}

  /** Returns the signs of each strip with its headings in place of what the network called so. */
  static Settled settle(TextReader text, List<StripSigns> strips) {
    List<TextReader.Placed> tasks =
        Spread.map(strips.size(), i -> lines(strips.get(i))).stream()
            .flatMap(List::stream)
            .toList();
    List<Reading> read = text.lines(tasks, (task, said) -> isWorthIt(task, said, strips));
    List<List<Sign>> all = new ArrayList<>();
    for (StripSigns f : strips) {
      all.add(settle(f, tasks, read));
    }
    return new Settled(all, folio(strips, tasks, read));
  }

  private static Optional<Folio> folio(
      List<StripSigns> strips, List<TextReader.Placed> tasks, List<Reading> read) {
    if (strips.isEmpty()) {
      return Optional.empty();
    }
    StripImage first = strips.get(0).strip();
    List<FolioLine.Line> lines = new ArrayList<>();
    for (int i = 0; i < tasks.size(); i++) {
      if (tasks.get(i).strip() == first) {
        lines.add(new FolioLine.Line(tasks.get(i).sign(), read.get(i)));
      }
    }
    return FolioLine.of(first.width(), lines);
  }

  private static List<TextReader.Placed> lines(StripSigns f) {
    long start = WorkStep.start();
    List<TextReader.Placed> lines = new ArrayList<>();
    for (RawSign line : Overhead.lines(f.strip)) {
      boolean high = line.y1() < StripImage.MIDDLE - SET.lowest() * StripImage.SPACE;
      boolean other =
          line.height() < SET.large() * StripImage.SPACE
              && f.raw.stream().anyMatch(s -> s.kind() != SignKind.HEADING && covers(s, line));
      if (high && !other) {
        lines.add(new TextReader.Placed(f.strip, line));
      }
    }
    WorkStep.LOOKS.done(start);
    return lines;
  }

  /** Tells whether a line may be a heading, so that it pays to read it with both models. */
  private static boolean isWorthIt(TextReader.Placed task, String said, List<StripSigns> strips) {
    boolean placed = isPlaced(task.strip(), task.sign());
    return placed
        || NumberHeading.of(said, false).isPresent()
        || strips.stream()
            .filter(f -> f.strip == task.strip())
            .flatMap(f -> f.raw.stream())
            .anyMatch(s -> s.kind() == SignKind.HEADING && s.inside(task.sign()) > SET.same());
  }

  private static List<Sign> settle(
      StripSigns f, List<TextReader.Placed> tasks, List<Reading> read) {
    List<Sign> headings = new ArrayList<>();
    List<RawSign> replaced = new ArrayList<>();
    for (int i = 0; i < tasks.size(); i++) {
      RawSign line = tasks.get(i).sign();
      if (tasks.get(i).strip() != f.strip) {
        continue;
      }
      List<RawSign> seen =
          f.raw.stream()
              .filter(s -> s.kind() == SignKind.HEADING && s.inside(line) > SET.same())
              .toList();
      Optional<String> worded = NumberHeading.of(read.get(i).text(), isPlaced(f.strip, line));
      if (worded.isPresent() || !seen.isEmpty()) {
        String said = worded.orElse(read.get(i).text());
        if (said.endsWith(".") && worded.isPresent()) {
          said = said + title(f.strip, line, tasks, read);
        }
        double seenSure = seen.stream().mapToDouble(RawSign::probability).max().orElse(0);
        RawSign sign =
            line.likely(worded.isPresent() ? Math.max(SET.worded(), seenSure) : seenSure);
        headings.add(
            StripSign.of(f.strip, sign, List.of(new Reading(said, read.get(i).probability()))));
        replaced.addAll(seen);
        f.raw.stream()
            .filter(s -> s.kind() == SignKind.WORD && s.inside(line) > SET.same())
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
    return sign.inside(line) > SET.same() && w > SET.covered() * line.width();
  }

  private static boolean isPlaced(StripImage strip, RawSign line) {
    boolean left = StripImage.along(line.x0()) < SET.left();
    boolean middle = Math.abs(line.centre() - strip.width() / 2.0) < SET.middle() * strip.width();
    return line.y1() < StripImage.MIDDLE - SET.high() * StripImage.SPACE
        && line.height() > SET.tall() * StripImage.SPACE
        && (left || middle);
  }

  private static Sign worded(Sign s) {
    List<Reading> readings =
        s.readings().stream()
            .map(
                r ->
                    new Reading(NumberHeading.of(r.text(), true).orElse(r.text()), r.probability()))
            .toList();
    return s.saying(readings);
  }

  /**
   * The line of text straight under "No. 7" or beside it, of like size, is its title; "TACET" may
   * stand beside both.
   */
  private static String title(
      StripImage strip, RawSign label, List<TextReader.Placed> tasks, List<Reading> read) {
    String title = "";
    String tacet = "";
    for (int i = 0; i < tasks.size(); i++) {
      RawSign t = tasks.get(i).sign();
      double below = t.y0() - label.y1();
      boolean under =
          tasks.get(i).strip() == strip && below > 0 && below < TITLES.below() * label.height();
      boolean like =
          t.height() > TITLES.least() * label.height()
              && t.height() < TITLES.most() * label.height();
      boolean beside = tasks.get(i).strip() == strip && isBeside(label, t);
      if (!like || !(beside || (under && t.x0() < label.x1() && t.x1() > label.x0()))) {
        continue;
      }
      String said = " " + read.get(i).text();
      if (NumberHeading.saysTacet(said)) {
        tacet = said;
      } else if (title.isEmpty()) {
        title = said;
      }
    }
    return title + tacet;
  }

  /** On the same line of text and to the right, however far: titles often stand in the middle. */
  private static boolean isBeside(RawSign label, RawSign text) {
    double apart = Math.abs((text.y0() + text.y1()) - (label.y0() + label.y1())) / 2;
    return text.x0() > label.x1() && apart < TITLES.level() * label.height();
  }
}
