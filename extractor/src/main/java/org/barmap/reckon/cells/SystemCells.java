package org.barmap.reckon.cells;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Barline;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * One system cut into cells by everything that may be a barline.
 *
 * @param source what was read
 * @param begin where the first bar begins, after clef, key and meter; staff spaces
 * @param end where music ends; staff spaces
 * @param lines candidates in order; the last one may be an open end without ink
 * @param openEnd true when the last candidate is the bare end of the line
 * @param wholes the signs that each stand for a whole bar or several, along the staff
 * @param beats what its notes and rests are worth
 */
public record SystemCells(
    ReadSystem source,
    double begin,
    double end,
    List<Candidate> lines,
    boolean openEnd,
    List<Sign> wholes,
    Beats beats) {

  private static final CellSettings.Cutting SET = ReckonSettings.STANDARD.cells().cutting();

  /** A candidate barline: where, how likely, which types. */
  public record Candidate(double at, double probability, Sign sign) {

    /** Tells whether something was read there; an open end has no ink. */
    public boolean ink() {
      return sign.to() > sign.from();
    }
  }

  /**
   * Cuts a system.
   *
   * @param openEnd how likely the line's end is a barline though nothing is drawn there
   * @param between how likely one was missed between two numbered rests
   */
  public static SystemCells of(ReadSystem system, double openEnd, double between) {
    List<Candidate> lines = new ArrayList<>();
    double left = system.begin();
    double begin = left + Math.min(SET.header(), (system.length() - left) / SET.headerShare());
    for (Sign sign : system.signs()) {
      boolean line = sign.kind() == SignKind.BARLINE && sign.probability() >= SET.candidate();
      if (line && sign.at() >= left + SET.opening()) {
        lines.add(new Candidate(sign.at(), sign.probability(), sign));
      }
    }
    betweenRests(system, lines, between);
    double end = system.length();
    double last = lines.isEmpty() ? begin : lines.get(lines.size() - 1).at();
    boolean open = end - last > SET.leastTail() && hasMusic(system, last, end);
    if (open) {
      lines.add(bare(system, end, openEnd, Barline.NONE));
    }
    if (!lines.isEmpty()) {
      begin = Math.min(begin, Math.max(left, lines.get(0).at() - SET.beforeFirst()));
    }
    return new SystemCells(
        system, begin, end, List.copyOf(lines), open, GapEvidence.wholes(system), Beats.NONE);
  }

  /** Two numbered rests in one cell: a barline between them was missed, half way. */
  private static void betweenRests(ReadSystem system, List<Candidate> lines, double between) {
    List<Sign> rests =
        system.signs().stream()
            .filter(s -> s.kind() == SignKind.MULTI_REST && s.probability() > SET.rest())
            .toList();
    for (int i = 1; i < rests.size(); i++) {
      double left = rests.get(i - 1).to();
      double right = rests.get(i).from();
      double beside = SET.restLine();
      boolean apart =
          lines.stream().anyMatch(l -> l.at() > left - beside && l.at() < right + beside);
      if (!apart && right - left > SET.restsApart()) {
        lines.add(bare(system, (left + right) / 2, between, Barline.SINGLE));
      }
    }
    lines.sort(java.util.Comparator.comparingDouble(Candidate::at));
  }

  /** A barline without ink. */
  private static Candidate bare(ReadSystem system, double at, double probability, Barline type) {
    Sign sign =
        new Sign(
            SignKind.BARLINE,
            at,
            at,
            -2,
            2,
            system.shape().between(at, at),
            probability,
            List.of(new Reading(type.word(), 1)),
            Optional.empty());
    return new Candidate(at, probability, sign);
  }

  /** A tail that is empty or holds only a courtesy meter or key is no bar. */
  private static boolean hasMusic(ReadSystem system, double from, double to) {
    if (system.inkEnd() < from + SET.written()) {
      return false;
    }
    boolean courtesy =
        system.signs().stream()
            .filter(s -> s.kind() == SignKind.METER || s.kind() == SignKind.KEY)
            .anyMatch(s -> s.at() > from && s.at() < to);
    return !courtesy || to - from > 2 * SET.leastTail();
  }

  /** Tells whether a line may be the forward repeat at the very beginning, which ends no bar. */
  public boolean opens(int line) {
    double left = source.begin();
    double opening = Math.max(left + SET.repeatOpening(), source.musicBegin() + SET.ownInk());
    Candidate first = lines.get(line);
    return line == 0
        && first.sign().text().equals(Barline.REPEAT_START.word())
        && first.at() < left + SET.widestOpening()
        && (first.at() < opening || followsMeter(first.at()));
  }

  /** Between a meter and a repeat right after it there is no room for a bar. */
  private boolean followsMeter(double at) {
    return signs(SignKind.METER).stream()
        .anyMatch(
            m -> m.probability() > SET.meter() && m.to() < at && at - m.to() < SET.besideMeter());
  }

  /** Left side of a cell; cell {@code i} ends at line {@code i}. */
  public double from(int cell) {
    return cell == 0 ? begin : lines.get(cell - 1).at();
  }

  /** Right side of a cell. */
  public double to(int cell) {
    return lines.get(cell).at();
  }

  /** Width of a cell in staff spaces. */
  double width(int cell) {
    return to(cell) - from(cell);
  }

  /** The same system as if a candidate were none. */
  public SystemCells without(int line) {
    List<Candidate> fewer = new ArrayList<>(lines);
    fewer.remove(line);
    return new SystemCells(source, begin, end, List.copyOf(fewer), openEnd, wholes, beats);
  }

  /** The same system, its notes and rests summed up. */
  SystemCells with(Beats summed) {
    return new SystemCells(source, begin, end, lines, openEnd, wholes, summed);
  }

  /** How many bars what stands in a cell adds up to. */
  Fill fill(int cell) {
    int whole = GapEvidence.whole(this, cell).size();
    Fill fill = beats.fill(beatsFrom(cell), to(cell), whole);
    return fill.known() || whole == 0 ? fill : Fill.of(whole, true);
  }

  /** How many notes and rests begin in a cell. */
  int sounds(int cell) {
    return beats.count(beatsFrom(cell), to(cell));
  }

  /** From where on a cell's notes count: a line's first one may stand in the usual header. */
  public double beatsFrom(int cell) {
    return cell == 0 ? beats.firstFrom(source.begin(), begin) : from(cell);
  }

  /** Where music begins in a cell, after clef, key and meter; staff spaces. */
  double musicFrom(int cell) {
    boolean known =
        cell == 0 && source.musicBegin() > begin && source.musicBegin() < to(0) - SET.leastFirst();
    return known ? source.musicBegin() : from(cell);
  }

  /** Width of the music in a cell in staff spaces. */
  double musicWidth(int cell) {
    return to(cell) - musicFrom(cell);
  }

  /** The likeliest faint line inside a cell, where one was seen that is no candidate. */
  public Optional<Sign> trace(int cell) {
    double from = musicFrom(cell) + SET.traceApart();
    double to = to(cell) - SET.traceApart();
    return source.signs().stream()
        .filter(s -> s.kind() == SignKind.BARLINE && s.probability() < SET.candidate())
        .filter(s -> s.at() > from && s.at() < to)
        .max(java.util.Comparator.comparingDouble(Sign::probability));
  }

  /** The cell a position lies in. */
  public int cellAt(double at) {
    for (int i = 0; i < lines.size(); i++) {
      if (at < to(i)) {
        return i;
      }
    }
    return lines.size() - 1;
  }

  /** The cell whose beginning is nearest to a position. */
  public int cellStartingNear(double at) {
    int best = 0;
    for (int i = 0; i < lines.size(); i++) {
      if (Math.abs(from(i) - at) < Math.abs(from(best) - at)) {
        best = i;
      }
    }
    return best;
  }

  /** All signs of some kind. */
  public List<Sign> signs(SignKind kind) {
    return source.signs().stream().filter(s -> s.kind() == kind).toList();
  }
}
