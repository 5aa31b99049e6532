package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.exchange.musicxml.MeasureReader;
import org.barmap.exchange.musicxml.ScoreFile;
import org.barmap.exchange.musicxml.ScoreMeasure;
import org.barmap.exchange.musicxml.SharedSigns;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;
import org.barmap.map.SecondReading;
import org.barmap.map.Word;

/** The measures of one part with what the score writes once for all parts. */
final class Cells {

  private Cells() {}

  static List<Cell> of(ScoreFile file, int part) {
    List<List<ScoreMeasure>> read = new ArrayList<>();
    List<SecondReading.Part> said = new ArrayList<>();
    List<List<Extra>> extras = new ArrayList<>();
    for (int p = 0; p < file.parts().size(); p++) {
      ScoreFile.Part own = file.parts().get(p);
      var tidied = Tidied.of(own.measures());
      read.add(new MeasureReader().measures(tidied));
      // parts are told apart by their places: ids may be doubled in a broken file
      String id = "P" + p;
      said.add(
          new SecondReading.Part(
              id, own.name(), read.get(p).stream().map(ScoreMeasure::said).toList()));
      extras.add(new ExtraReader().read(tidied));
    }
    List<SecondReading.Measure> own = SharedSigns.over(said).get(part).measures();
    List<Numbering.Name> names = Numbering.of(own);
    boolean bare = extras.get(part).stream().allMatch(e -> e.quarters() == 0);
    List<Extra> extra = withShared(extras, part);
    if (bare) {
      // a form without notes: nothing says that nobody plays
      extra = extra.stream().map(Extra::notIdle).toList();
    }
    List<Cell> cells = new ArrayList<>();
    for (int i = 0; i < own.size(); i++) {
      ScoreMeasure m = read.get(part).get(i);
      cells.add(
          new Cell(
              new ScoreMeasure(own.get(i), m.doubts(), m.early(), m.late(), m.bareCoda()),
              extra.get(i),
              names.get(i),
              1));
    }
    return joined(moved(firstCoda(cells)));
  }

  /** Tempo marks and vamps stand over the top staff of a score; a part without any takes them. */
  private static List<Extra> withShared(List<List<Extra>> extras, int part) {
    List<Extra> own = extras.get(part);
    boolean has = own.stream().anyMatch(Cells::steers);
    List<Extra> top =
        extras.stream()
            .filter(e -> e.size() == own.size() && e.stream().anyMatch(Cells::steers))
            .findFirst()
            .orElse(own);
    if (has || top == own) {
      return own;
    }
    List<Extra> all = new ArrayList<>();
    for (int i = 0; i < own.size(); i++) {
      List<Word> words = new ArrayList<>();
      top.get(i).words().stream().filter(top.get(i).shared()::contains).forEach(words::add);
      words.addAll(own.get(i).words());
      all.add(own.get(i).withWords(words, top.get(i).tempo()));
    }
    return all;
  }

  private static boolean steers(Extra e) {
    return !e.shared().isEmpty() || e.tempo().isPresent();
  }

  /**
   * Two coda signs without words, and nothing else that leads to a coda: the first is where it is
   * left for (common practice).
   */
  private static List<Cell> firstCoda(List<Cell> cells) {
    boolean leaves = cells.stream().anyMatch(c -> c.said().signs().contains(Navigation.TO_CODA));
    List<Integer> codas = new ArrayList<>();
    for (int i = 0; i < cells.size(); i++) {
      if (cells.get(i).said().signs().contains(Navigation.CODA)) {
        codas.add(i);
      }
    }
    if (leaves || codas.size() != 2 || !cells.get(codas.get(0)).read().bareCoda()) {
      return cells;
    }
    List<Cell> out = new ArrayList<>(cells);
    Cell first = cells.get(codas.get(0));
    List<Navigation> signs = new ArrayList<>(first.said().signs());
    signs.remove(Navigation.CODA);
    signs.add(Navigation.TO_CODA);
    out.set(
        codas.get(0),
        with(
            first,
            signs,
            Optional.of(
                "The first of two coda signs is taken as \"To Coda\", at the end of this bar")));
    return out;
  }

  /** What counts at a bar's start and stands behind the last note of a bar begins the next one. */
  private static List<Cell> moved(List<Cell> cells) {
    List<Cell> out = new ArrayList<>(cells);
    for (int i = 0; i + 1 < cells.size(); i++) {
      Set<Navigation> late = EnumSet.noneOf(Navigation.class);
      cells.get(i).read().late().stream()
          .filter(cells.get(i).said().signs()::contains)
          .forEach(late::add);
      if (late.isEmpty()) {
        continue;
      }
      List<Navigation> stay = new ArrayList<>(out.get(i).said().signs());
      stay.removeAll(late);
      Set<Navigation> next = EnumSet.copyOf(late);
      next.addAll(out.get(i + 1).said().signs());
      out.set(i, with(out.get(i), stay, Optional.empty()));
      out.set(i + 1, with(out.get(i + 1), List.copyOf(next), Optional.empty()));
    }
    return out;
  }

  private static Cell with(Cell cell, List<Navigation> signs, Optional<String> doubt) {
    List<String> doubts = new ArrayList<>(cell.read().doubts());
    doubt.ifPresent(doubts::add);
    ScoreMeasure read =
        new ScoreMeasure(
            cell.said().withSigns(signs), doubts, cell.read().early(), Set.of(), false);
    return new Cell(read, cell.extra(), cell.number(), cell.measures());
  }

  /** A bar written as two measures without a barline between them is one bar. */
  private static List<Cell> joined(List<Cell> cells) {
    List<Cell> out = new ArrayList<>();
    for (Cell cell : cells) {
      Cell before = out.isEmpty() ? null : out.get(out.size() - 1);
      if (before != null && cell.number().goesOn() && open(before, cell)) {
        out.set(out.size() - 1, Joining.of(before, cell));
      } else {
        out.add(cell);
      }
    }
    return out;
  }

  private static boolean open(Cell before, Cell cell) {
    Barline line = before.said().end();
    return (line == Barline.NONE || line == Barline.DASHED)
        && cell.said().start() == Barline.NONE
        && cell.said().ending().equals(before.said().ending())
        && cell.said().rehearsal().isEmpty();
  }
}
