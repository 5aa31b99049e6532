package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Figures;

/** Beats that cuts leave out of one bar; those left out twice count once. */
final class BeatsOut {

  /** Beats from one place to another, in the meter's lower figure. */
  private record Part(double from, double to) {}

  private final Piece whole;
  private final double beats;
  private final List<Part> parts = new ArrayList<>();

  BeatsOut(Piece whole) {
    this.whole = whole;
    this.beats = whole.bar().meter().map(Meter::beats).orElse(0);
  }

  /**
   * Tells whether a cut says which beats go of a bar that a change gives a shorter meter: what is
   * left is that meter, whole.
   */
  static boolean saysWhatGoes(WrittenNumber number, Piece piece, Span span) {
    boolean first = piece.slot() == span.from() && span.fromBeat().isPresent();
    boolean last = piece.slot() == span.to() && span.toBeat().isPresent();
    if (piece.added().isPresent() || (!first && !last)) {
      return false;
    }
    Optional<Meter> written = number.barAt(piece.slot()).meter();
    Optional<Meter> now = piece.bar().meter();
    if (written.isEmpty() || now.isEmpty()) {
      return false;
    }
    double from = first ? span.fromBeat().orElse(1) : 1;
    double to = last ? span.toBeat().orElse(0) : written.get().beats();
    double out = (to - from + 1) * written.get().quarters() / written.get().beats();
    return Math.abs(written.get().quarters() - now.get().quarters() - out) < Figures.SAME;
  }

  /** Returns what is left of the bar with one cut more. */
  Piece with(Span span) {
    boolean firstBar = whole.slot() == span.from();
    boolean lastBar = whole.slot() == span.to();
    double before = firstBar ? Math.min(beats, span.fromBeat().orElse(1) - 1) : 0;
    double through = lastBar ? Math.min(beats, span.toBeat().orElse(beats)) : beats;
    if (beats == 0 || (before == 0 && through >= beats)) {
      return whole.withCut();
    }
    parts.add(new Part(before, through));
    return left();
  }

  private Piece left() {
    parts.sort(Comparator.comparingDouble(Part::from));
    List<Part> joined = new ArrayList<>();
    for (Part part : parts) {
      Part last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      if (last != null && part.from() <= last.to()) {
        joined.set(joined.size() - 1, new Part(last.from(), Math.max(last.to(), part.to())));
      } else {
        joined.add(part);
      }
    }
    double start = 0;
    double end = 0;
    double middle = 0;
    for (Part part : joined) {
      if (part.from() <= 0 && part.to() >= beats) {
        return whole.withCut();
      }
      if (part.from() <= 0) {
        start = part.to();
      } else if (part.to() >= beats) {
        end = beats - part.from();
      } else {
        middle += part.to() - part.from();
      }
    }
    return whole.withBeatsCut(start, end, middle);
  }
}
