package org.barmap.reckon.cells;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Barline;
import org.barmap.map.Evidence;
import org.barmap.map.Navigation;
import org.barmap.map.Placement;
import org.barmap.map.Word;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.rule.WordMeaning;

/** Finds the signs of one system that belong to one of its bars. */
public final class Attributes {

  private static final CellSettings.Signs SET = ReckonSettings.STANDARD.cells().signs();

  private static final CellSettings.Beats BEATS = ReckonSettings.STANDARD.cells().beats();

  private final SystemCells cells;
  private final List<BarSpan> bars;

  /** Takes a system and its bars, from left to right. */
  public Attributes(SystemCells cells, List<BarSpan> bars) {
    this.cells = cells;
    this.bars = bars;
  }

  /** The bar a position lies in. */
  private int barAt(double at) {
    for (int i = 0; i < bars.size(); i++) {
      if (at < bars.get(i).to()) {
        return i;
      }
    }
    return bars.size() - 1;
  }

  /** The bar that begins under a sign, else the one it lies in. */
  private int barStartingAt(Sign sign) {
    int best = 0;
    for (int i = 1; i < bars.size(); i++) {
      if (Marks.distance(sign, bars.get(i).from()) < Marks.distance(sign, bars.get(best).from())) {
        best = i;
      }
    }
    return Marks.distance(sign, bars.get(best).from()) <= SET.over() ? best : barAt(sign.at());
  }

  /** The bar that ends nearest to a sign's right side, else the one it lies in. */
  private int barEndingAt(Sign sign) {
    int in = barAt(sign.at());
    double into = sign.at() - bars.get(in).from();
    boolean overhangs =
        in > 0 && into < Math.min(SET.before(), bars.get(in).width() / SET.overhang());
    return overhangs ? in - 1 : in;
  }

  private List<Sign> of(SignKind kind) {
    return cells.signs(kind);
  }

  /** The meter printed at a bar's beginning. */
  public Optional<Sign> meter(int bar) {
    double last = bars.get(bars.size() - 1).to();
    return of(SignKind.METER).stream()
        .filter(s -> s.at() < last && barAt(s.at()) == bar)
        .filter(s -> nearBeginning(s, bar))
        .filter(s -> Meters.of(s).isPresent())
        .max(Comparator.comparingDouble(Sign::probability));
  }

  /** The key signature drawn at a bar's beginning; at a line's beginning it may stand before it. */
  public Optional<Sign> key(int bar) {
    double last = bars.get(bars.size() - 1).to();
    return of(SignKind.KEY).stream()
        .filter(s -> s.at() < last && barAt(s.at()) == bar)
        .filter(s -> nearBeginning(s, bar))
        .max(Comparator.comparingDouble(Sign::probability));
  }

  /** A key signature after the line's last barline, which counts from the next line on. */
  public Optional<Sign> courtesyKey() {
    double last = bars.get(bars.size() - 1).to();
    return of(SignKind.KEY).stream()
        .filter(s -> s.at() >= last)
        .max(Comparator.comparingDouble(Sign::probability));
  }

  private boolean nearBeginning(Sign sign, int bar) {
    BarSpan span = bars.get(bar);
    double into = sign.at() - span.from();
    return into < BEATS.header() || into < BEATS.headerShare() * span.width();
  }

  /** The rehearsal mark over a bar's beginning. */
  public Optional<Sign> rehearsal(int bar) {
    return of(SignKind.REHEARSAL).stream()
        .filter(s -> barStartingAt(s) == bar)
        .max(Comparator.comparingDouble(Sign::probability));
  }

  /** A whole-bar rest in the bar. */
  public boolean rests(int bar) {
    return of(SignKind.REST).stream()
        .anyMatch(s -> s.probability() >= SET.rest() && barAt(s.at()) == bar);
  }

  /** How likely a whole-bar rest stands in the bar. */
  public double restProbability(int bar) {
    return of(SignKind.REST).stream()
        .filter(s -> barAt(s.at()) == bar)
        .mapToDouble(Sign::probability)
        .max()
        .orElse(0);
  }

  /** A bar-repeat sign for the bar: in it, or a two-bar sign over one of its barlines. */
  public boolean repeatsBarBefore(int bar) {
    BarSpan span = bars.get(bar);
    double least = hasNotes(span) ? SET.besideNotes() : 0;
    boolean one =
        of(SignKind.BAR_REPEAT).stream()
            .anyMatch(s -> s.probability() >= least && barAt(s.at()) == bar);
    boolean two =
        of(SignKind.BAR_REPEAT_2).stream()
            .anyMatch(
                s ->
                    s.to() > span.from() - SET.repeatOver()
                        && s.from() < span.to() + SET.repeatOver());
    return one || two;
  }

  /** Tells whether a note or a rest was read in a bar, which a bar-repeat sign fills alone. */
  private boolean hasNotes(BarSpan span) {
    return cells.source().sounds().stream()
        .anyMatch(
            s ->
                s.probability() >= BEATS.there()
                    && s.at() > span.from() + BEATS.besideLine()
                    && s.at() < span.to() - BEATS.besideLine());
  }

  /** The endings a bar lies under. */
  public List<Integer> ending(int bar) {
    return bracket(bar).map(s -> endingOf(s, bar)).orElse(List.of());
  }

  /** Tells whether a bar lies under a bracket that goes on from the line before. */
  public boolean endingGoesOn(int bar) {
    return bracket(bar).filter(s -> s.text().equals(Sign.GOES_ON)).isPresent();
  }

  private Optional<Sign> bracket(int bar) {
    BarSpan span = bars.get(bar);
    double middle = (span.from() + span.to()) / 2;
    return of(SignKind.ENDING).stream()
        .filter(s -> s.from() <= middle && s.to() >= middle)
        .findFirst();
  }

  private List<Integer> endingOf(Sign bracket, int bar) {
    List<Integer> read = numbers(bracket.text());
    if (!read.isEmpty()) {
      return read;
    }
    boolean afterRepeat =
        bar > 0
            && bars.get(bar - 1)
                .end()
                .filter(e -> e.text().equals(Barline.REPEAT_END.word()))
                .isPresent();
    return List.of(afterRepeat ? 2 : 1);
  }

  /** Reads "1.", "1.,2.", "1-3". */
  public static List<Integer> numbers(String text) {
    List<Integer> out = new ArrayList<>();
    for (String part : text.split("[^0-9]+")) {
      if (part.matches("[1-9]\\d?")) {
        out.add(Integer.parseInt(part));
      }
    }
    boolean range = text.matches("\\s*\\d+\\.?\\s*[-–]\\s*\\d+.*");
    if (range && out.size() == 2 && out.get(1) > out.get(0) && out.get(1) < SET.mostEnding()) {
      int first = out.get(0);
      int last = out.get(1);
      out.clear();
      for (int i = first; i <= last; i++) {
        out.add(i);
      }
    }
    return List.copyOf(out);
  }

  /** Navigation signs and holds at a bar, from signs and from words. */
  public List<Navigation> navigation(int bar) {
    List<Navigation> out = new ArrayList<>();
    for (Sign s : cells.source().signs()) {
      Optional<Navigation> found =
          switch (s.kind()) {
            case SEGNO ->
                barStartingAt(s) == bar ? Optional.of(Navigation.SEGNO) : Optional.empty();
            case CODA -> coda(s, bar);
            case FERMATA ->
                barAt(s.at()) == bar ? Optional.of(Navigation.FERMATA) : Optional.empty();
            case CAESURA ->
                barEndingAt(s) == bar ? Optional.of(Navigation.CAESURA) : Optional.empty();
            default -> Optional.empty();
          };
      found.filter(n -> !out.contains(n)).ifPresent(out::add);
      if (isWords(s) && barEndingAt(s) == bar) {
        WordMeaning.of(s.text()).navigation().filter(n -> !out.contains(n)).ifPresent(out::add);
      }
    }
    return List.copyOf(out);
  }

  /** A coda sign beside "To Coda" belongs to those words; near a bar's end it is one by itself. */
  private Optional<Navigation> coda(Sign s, int bar) {
    boolean spoken =
        of(SignKind.WORD).stream()
            .anyMatch(
                w ->
                    WordMeaning.of(w.text()).navigation().equals(Optional.of(Navigation.TO_CODA))
                        && w.to() > s.from() - SET.codaAfter()
                        && w.from() < s.to() + SET.codaBefore());
    if (spoken) {
      return Optional.empty();
    }
    return barStartingAt(s) == bar ? Optional.of(Navigation.CODA) : Optional.empty();
  }

  /** How often the bar is to be played in all, from "3X" or "play three times". */
  public Optional<Integer> times(int bar) {
    return of(SignKind.WORD).stream()
        .filter(s -> barAt(s.at()) == bar)
        .flatMap(s -> WordMeaning.of(s.text()).times().stream())
        .findFirst();
  }

  /** All words at a bar. */
  public List<Word> words(int bar) {
    return cells.source().signs().stream()
        .filter(s -> isWords(s) || isKept(s))
        .filter(s -> !s.text().isBlank() && barOfWords(s) == bar)
        .map(
            s ->
                new Word(
                    s.text(),
                    (s.top() + s.bottom()) / 2 < 0 ? Placement.ABOVE : Placement.BELOW,
                    Optional.of(s.outline().rounded())))
        .toList();
  }

  private int barOfWords(Sign s) {
    return barAt(Math.max(0, s.from() + SET.words()));
  }

  private static boolean isWords(Sign s) {
    return s.kind() == SignKind.WORD;
  }

  /** A chord symbol or a sung word says something only when it is read surely. */
  private static boolean isKept(Sign s) {
    return (s.kind() == SignKind.CHORD || s.kind() == SignKind.LYRIC)
        && s.readings().stream().limit(1).anyMatch(r -> r.probability() >= SET.kept());
  }

  /** Readings as the map keeps them, most likely first. */
  public static List<Evidence.Alternative> alternatives(List<Reading> readings) {
    return readings.stream()
        .limit(SET.listed())
        .map(r -> Evidence.Alternative.rounded(r.text(), r.probability()))
        .toList();
  }
}
