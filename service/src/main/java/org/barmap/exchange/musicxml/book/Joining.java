package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.exchange.musicxml.ScoreMeasure;
import org.barmap.map.Navigation;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.Word;

/** Two pieces of a bar, put together. */
final class Joining {

  private Joining() {}

  static Cell of(Cell a, Cell b) {
    Measure first = a.said();
    Measure second = b.said();
    Set<Navigation> signs = EnumSet.noneOf(Navigation.class);
    signs.addAll(first.signs());
    signs.addAll(second.signs());
    Measure whole =
        new Measure(
            first.number(),
            first.implicit(),
            first.meter(),
            first.key(),
            a.rests() && b.rests(),
            0,
            first.start(),
            second.end(),
            second.times(),
            first.rehearsal(),
            first.ending(),
            List.copyOf(signs));
    List<String> doubts = new ArrayList<>(a.read().doubts());
    doubts.addAll(b.read().doubts());
    Set<Navigation> early = new HashSet<>(a.read().early());
    return new Cell(
        new ScoreMeasure(whole, doubts, early, Set.of(), false),
        extra(a.extra(), b.extra()),
        a.number(),
        a.measures() + b.measures());
  }

  private static Extra extra(Extra a, Extra b) {
    List<Word> words = new ArrayList<>(a.words());
    words.addAll(b.words());
    Map<String, Integer> left = new HashMap<>(a.left());
    b.left().forEach((what, often) -> left.merge(what, often, Integer::sum));
    List<String> remarks = new ArrayList<>(a.remarks());
    remarks.addAll(b.remarks());
    return new Extra(
        words,
        a.shared(),
        a.tempo().or(b::tempo),
        a.newLine(),
        a.newPage(),
        a.repeats(),
        a.idle() && b.idle(),
        a.enclosure(),
        a.quarters() + b.quarters(),
        silent(a.silentStart(), a.quarters(), b.silentStart()),
        silent(b.silentEnd(), b.quarters(), a.silentEnd()),
        left,
        remarks);
  }

  /** The silence of the near piece, or all of it and that of the far one. */
  private static Optional<Double> silent(Optional<Double> near, double all, Optional<Double> far) {
    return near.isPresent() ? near : far.map(f -> f + all);
  }
}
