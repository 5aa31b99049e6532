package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.barmap.map.Outline;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.Word;

/** Makes bar entries of measures: one for a rest of several bars, else one for each. */
final class Entries {
  private static final double HUNDREDTHS = 100;

  /** Quarters; durations are fractions that don't add up exactly. */
  static final double SAME = 0.01;

  private Entries() {}

  /**
   * An entry.
   *
   * @param bar without its place on a page; its start barline is none or a repeat that begins
   * @param first index of its first measure
   * @param measures how many measures of the file it takes
   * @param doubt what is to be asked, one sentence
   */
  record Made(Bar bar, int first, int measures, Optional<String> doubt) {}

  static List<Made> of(List<Cell> cells, boolean mergeRests) {
    Rests rests = new Rests(cells, mergeRests);
    List<Made> made = new ArrayList<>();
    for (int i = 0; i < cells.size(); ) {
      Rests.Span span = cells.get(i).rests() ? rests.at(i) : Rests.Span.of(1);
      int before = made.isEmpty() ? 0 : made.get(made.size() - 1).bar().number();
      Bar bar = named(bar(cells, i, span, "b" + (made.size() + 1)), cells.get(i), before);
      made.add(new Made(bar, i, span.measures(), span.doubt()));
      i += span.measures();
    }
    return made;
  }

  /**
   * A bar that is called 0, or whose number is not displayed, is a pickup only where it is shorter
   * than its meter; a whole one counts, and needs a label, since a map's bar 0 is a pickup.
   */
  private static Bar named(Bar bar, Cell cell, int before) {
    double meter = bar.meter().map(Meter::quarters).orElse(Double.MAX_VALUE);
    boolean whole = bar.number() == 0 && cell.extra().quarters() > meter - SAME;
    String token = cell.said().number().strip();
    boolean named = cell.said().implicit() ? !token.matches("\\d*") : token.equals("0");
    return whole && named ? bar.toBuilder().label(token).number(before).build() : bar;
  }

  private static Bar bar(List<Cell> cells, int i, Rests.Span span, String id) {
    Cell cell = cells.get(i);
    Measure first = cell.said();
    Measure last = cells.get(i + span.measures() - 1).said();
    Content content = content(cell, span.bars());
    List<org.barmap.map.Navigation> signs = new ArrayList<>(first.signs());
    last.signs().stream().filter(s -> !signs.contains(s)).forEach(signs::add);
    BarBuilder b =
        Bar.builder(id, 1, 1, Outline.box(0, 0, 1, 1))
            .number(cell.number().number())
            .label(cell.number().label())
            .count(span.bars())
            .content(content)
            .meter(first.meter())
            .key(first.key())
            .startBarline(first.start())
            .endBarline(last.end())
            .rehearsal(first.rehearsal().map(t -> new RehearsalMark(t, cell.extra().enclosure())))
            .ending(first.ending())
            .signs(signs)
            .words(words(cell.extra()));
    last.times().ifPresent(b::times);
    if (content == Content.MUSIC && first.meter().isPresent()) {
      double unit = first.meter().get().unit() / 4.0;
      cell.extra()
          .silentStart()
          .filter(s -> s > 0)
          .ifPresent(s -> b.silentStart(rounded(s * unit)));
      cell.extra().silentEnd().filter(s -> s > 0).ifPresent(s -> b.silentEnd(rounded(s * unit)));
    }
    return b.build();
  }

  private static double rounded(double beats) {
    return Math.round(beats * HUNDREDTHS) / HUNDREDTHS;
  }

  private static Content content(Cell cell, int bars) {
    if (cell.extra().repeats() > 0) {
      return Content.BAR_REPEAT;
    }
    return bars > 1 ? Content.MULTI_REST : cell.rests() ? Content.REST : Content.MUSIC;
  }

  private static List<Word> words(Extra extra) {
    List<Word> words = new ArrayList<>();
    extra
        .tempo()
        .ifPresent(
            t ->
                words.add(
                    new Word(
                        Texted.quarters(t), org.barmap.map.Placement.ABOVE, Optional.empty())));
    words.addAll(extra.words());
    return words;
  }

  /**
   * Returns the bars with barlines as a bar map has them: a line's first bar begins with none or
   * with a repeat, elsewhere a bar begins with what the bar before it ends with.
   */
  static List<Bar> lined(List<Bar> bars) {
    List<Bar> out = new ArrayList<>();
    for (Bar bar : bars) {
      if (out.isEmpty()) {
        out.add(bar);
        continue;
      }
      Bar before = out.get(out.size() - 1);
      boolean sameLine = before.page() == bar.page() && before.system() == bar.system();
      boolean opens =
          bar.startBarline() == Barline.REPEAT_START || before.endBarline() == Barline.REPEAT_START;
      boolean closes = before.endBarline() == Barline.REPEAT_END;
      if (sameLine) {
        Barline line =
            opens ? (closes ? Barline.REPEAT_BOTH : Barline.REPEAT_START) : before.endBarline();
        out.set(out.size() - 1, before.toBuilder().endBarline(line).build());
        out.add(bar.toBuilder().startBarline(line).build());
      } else {
        Barline line =
            before.endBarline() == Barline.REPEAT_START ? Barline.SINGLE : before.endBarline();
        out.set(out.size() - 1, before.toBuilder().endBarline(line).build());
        out.add(bar.toBuilder().startBarline(opens ? Barline.REPEAT_START : Barline.NONE).build());
      }
    }
    return out;
  }
}
