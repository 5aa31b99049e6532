package org.barmap.fit;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.exchange.musicxml.write.MusicXmlWriter;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.barmap.map.RehearsalMark;

/**
 * Stands in for another reader of music: knows the truth of a page and errs at a stated rate, then
 * writes MusicXML. What is not its own error is right, so it is no model of any real program.
 *
 * <p>At rate r each of these goes wrong with probability r, by itself: a barline between two single
 * bars is missed (and in a bar of music one is invented with r / 3); a long rest's count is off by
 * one figure (with r / 4 the rest counts as one bar); a printed meter is missed, or wrong with r /
 * 3; a rehearsal mark is missed, or another with r / 3; a repeat, a double barline, an ending is
 * lost; a whole-bar rest is taken for music, or the other way round, with r / 3. It counts its
 * measures from 1 and reads no printed numbers.
 *
 * @param rate 0 to 1
 * @param seed of its errors
 */
record StandIn(double rate, long seed) {

  /** Of errors that are rarer than the rate. */
  private static final double RARE = 1 / 3.0;

  /** Writes what it makes of a page. */
  void read(BarMap truth, Path out) throws IOException {
    Random random = new Random(seed);
    List<Bar> bars = new ArrayList<>(truth.bars());
    bars.replaceAll(b -> misread(b, random));
    lines(bars, random);
    meters(bars, random);
    for (int i = 0, next = 1; i < bars.size(); i++) {
      bars.set(i, bars.get(i).toBuilder().number(next).label(Optional.empty()).build());
      next += bars.get(i).count();
    }
    try (OutputStream to = Files.newOutputStream(out)) {
      MusicXmlWriter.write(truth.withBars(bars), to);
    }
  }

  private boolean errs(Random random, double share) {
    return random.nextDouble() < rate * share;
  }

  private Bar misread(Bar bar, Random random) {
    BarBuilder read = bar.toBuilder();
    if (bar.content() == Content.MULTI_REST) {
      int count = errs(random, 1) ? otherFigure(bar.count(), random) : bar.count();
      count = errs(random, 1 / 4.0) ? 1 : count;
      read.count(count).content(count > 1 ? Content.MULTI_REST : Content.REST);
    } else if (errs(random, RARE)) {
      read.content(bar.isRest() ? Content.MUSIC : Content.REST);
    }
    if (bar.rehearsal().isPresent() && errs(random, 1)) {
      read.rehearsal(Optional.empty());
    } else if (bar.rehearsal().isPresent() && errs(random, RARE)) {
      String letter = String.valueOf((char) ('A' + random.nextInt(26)));
      read.rehearsal(new RehearsalMark(letter, bar.rehearsal().get().enclosure()));
    }
    if (bar.startBarline() != Barline.SINGLE
        && bar.startBarline() != Barline.NONE
        && errs(random, 1)) {
      read.startBarline(Barline.SINGLE);
    }
    boolean plain = bar.endBarline() == Barline.SINGLE || bar.endBarline() == Barline.NONE;
    if (!plain && errs(random, 1)) {
      read.endBarline(Barline.SINGLE).times(Optional.empty());
    }
    if (!bar.ending().isEmpty() && errs(random, 1)) {
      read.ending(List.of());
    }
    return read.build();
  }

  private static int otherFigure(int count, Random random) {
    char[] figures = Integer.toString(count).toCharArray();
    int at = random.nextInt(figures.length);
    char old = figures[at];
    while (figures[at] == old || figures[0] == '0') {
      figures[at] = (char) ('0' + random.nextInt(10));
    }
    return Math.max(1, Integer.parseInt(new String(figures)));
  }

  private void lines(List<Bar> bars, Random random) {
    for (int i = bars.size() - 1; i >= 0; i--) {
      Bar bar = bars.get(i);
      if (bar.content() == Content.MUSIC && errs(random, RARE)) {
        BarBuilder more = bar.toBuilder().rehearsal(Optional.empty());
        bars.add(i + 1, more.startBarline(Barline.SINGLE).build());
        bars.set(i, bar.toBuilder().endBarline(Barline.SINGLE).build());
      }
      boolean single = bar.endBarline() == Barline.SINGLE && bar.count() == 1;
      if (single && i + 1 < bars.size() && bars.get(i + 1).count() == 1 && errs(random, 1)) {
        Bar next = bars.remove(i + 1);
        bars.set(i, bar.toBuilder().endBarline(next.endBarline()).content(Content.MUSIC).build());
      }
    }
  }

  /** A meter that is missed leaves the one before in force. */
  private void meters(List<Bar> bars, Random random) {
    Optional<Meter> now = Optional.empty();
    for (int i = 0; i < bars.size(); i++) {
      Optional<Meter> printed = bars.get(i).meter().filter(Meter::printed);
      boolean seen = i == 0 || (printed.isPresent() && !errs(random, 1));
      now = seen ? bars.get(i).meter() : now.map(m -> m.withPrinted(false));
      if (seen && printed.isPresent() && errs(random, RARE)) {
        now = Optional.of(new Meter(2 + random.nextInt(5), printed.get().unit(), true));
      }
      bars.set(i, bars.get(i).toBuilder().meter(now).build());
    }
  }
}
