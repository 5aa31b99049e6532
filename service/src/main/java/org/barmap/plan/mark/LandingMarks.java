package org.barmap.plan.mark;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Word;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.BeatWords;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.NoteValues;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.check.CutStretch;
import org.barmap.plan.check.LineStart;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Clock;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.pace.Pace;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/**
 * What is in force where the player lands behind a cut, was set by the bars left out, and is not
 * printed at the landing: meter, key, tempo, beats to a bar (common practice, landing in force). A
 * line repeats its key signature, nothing else.
 */
final class LandingMarks {
  private final Performance performance;
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final List<Span> spans;
  private final Pencil pencil;

  LandingMarks(Performance performance, List<Span> spans, Pencil pencil) {
    this.performance = performance;
    this.number = performance.number();
    this.pieces = performance.order().pieces();
    this.spans = spans;
    this.pencil = pencil;
  }

  void mark(CutStretch cut, Optional<String> id) {
    int before = before(pieces, cut);
    int at = landing(pieces, cut);
    if (at >= pieces.size() || before == at) {
      return;
    }
    Piece landing = pieces.get(at);
    meter(before, landing, id);
    key(before, at, id);
    tempo(cut, before, at, id);
    beats(before, at, id);
  }

  /** Returns the last piece played before a cut; -1 at the start of the number. */
  static int before(List<Piece> pieces, CutStretch cut) {
    return pieces.get(cut.first()).cut() ? cut.first() - 1 : cut.first();
  }

  /** Returns the piece of the book a player lands on; an added bar has no room for a mark. */
  static int landing(List<Piece> pieces, CutStretch cut) {
    int at = pieces.get(cut.last()).cut() ? cut.last() + 1 : cut.last();
    while (at < pieces.size() && pieces.get(at).inserted().isPresent()) {
      at++;
    }
    return at;
  }

  private void write(Piece landing, String mark, String sign, Optional<String> id) {
    pencil.add(number, landing.slot(), landing.bar(), mark, sign, id);
  }

  private void meter(int before, Piece landing, Optional<String> id) {
    Optional<Meter> from = before < 0 ? Optional.empty() : pieces.get(before).bar().meter();
    landing
        .bar()
        .meter()
        .filter(m -> !(m.printed() && landing.first()))
        .filter(m -> from.filter(m::sameAs).isEmpty())
        .ifPresent(m -> write(landing, "meter", m.beats() + "/" + m.unit(), id));
  }

  private void key(int before, int at, Optional<String> id) {
    Piece landing = pieces.get(at);
    Optional<Key> from = before < 0 ? Optional.empty() : performance.keys().get(before);
    Optional<Key> to = performance.keys().get(at);
    boolean drawn =
        landing.first()
            && landing.bar().key().filter(k -> to.filter(k::sameAs).isPresent()).isPresent()
            && (LineStart.at(pieces, at) || landing.bar().key().filter(Key::printed).isPresent());
    if (!drawn && to.isPresent() && from.filter(to.get()::sameAs).isEmpty()) {
      write(landing, "key", to.get().says(), id);
    }
  }

  private void tempo(CutStretch cut, int before, int at, Optional<String> id) {
    Piece landing = pieces.get(at);
    boolean own = landing.first() && says(landing.bar());
    Optional<String> set = setInside(cut, before, at);
    if (own || set.isEmpty() || startsTempo(landing)) {
      return;
    }
    Optional<Double> from =
        before < 0 ? Optional.empty() : performance.measures().get(before).pace().map(Pace::to);
    Optional<Double> to = performance.measures().get(at).pace().map(Pace::from);
    if (to.isEmpty()) {
      write(landing, "tempo", set.get(), id);
    } else if (from.filter(f -> Math.abs(f - to.get()) < Figures.SAME).isEmpty()) {
      write(landing, "tempo", NoteValues.written(landing.bar().meter(), to.get()), id);
    }
  }

  private static boolean says(Bar bar) {
    return TempoWords.of(bar.words()).kind() != TempoWords.Kind.NONE;
  }

  private boolean startsTempo(Piece piece) {
    return spans.stream()
        .anyMatch(s -> s.from() == piece.slot() && s.effects().inForce().tempo().isPresent());
  }

  /** Returns the words of the last tempo that was set in the bars left out. */
  private Optional<String> setInside(CutStretch cut, int before, int at) {
    for (int i = Math.min(cut.last(), at - 1); i >= cut.first() && i > before; i--) {
      Piece piece = pieces.get(i);
      if (startsTempo(piece)) {
        return Optional.of("");
      }
      if (piece.first() && says(piece.bar())) {
        return piece.bar().words().stream()
            .map(Word::text)
            .filter(t -> TempoWords.read(t).kind() != TempoWords.Kind.NONE)
            .reduce((a, b) -> b);
      }
    }
    return Optional.empty();
  }

  private void beats(int before, int at, Optional<String> id) {
    Piece landing = pieces.get(at);
    Measure to = performance.measures().get(at);
    Optional<Meter> meter = landing.bar().meter();
    int usual = meter.map(Clock::usualBeats).orElse(to.beats());
    boolean sameMeter =
        before >= 0 && pieces.get(before).bar().meter().filter(m -> same(m, meter)).isPresent();
    int expected = sameMeter ? performance.measures().get(before).beats() : usual;
    boolean own =
        landing.first()
            && landing.bar().words().stream()
                .anyMatch(w -> BeatWords.read(w.text(), meter).isPresent());
    boolean said =
        spans.stream()
            .anyMatch(s -> s.from() == landing.slot() && s.effects().inForce().beats().isPresent());
    if (to.beats() > 0 && to.beats() != expected && !own && !said) {
      write(landing, "beats", "in " + to.beats(), id);
    }
  }

  private static boolean same(Meter meter, Optional<Meter> other) {
    return other.filter(meter::sameAs).isPresent();
  }
}
