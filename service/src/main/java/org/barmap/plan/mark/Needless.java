package org.barmap.plan.mark;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Key;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.effect.Grip;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.effect.TempoSet;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Metronome;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Clock;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.pace.Pace;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/** Tells which changes need no mark, because the print says the same at their bars. */
public final class Needless {
  private static final Pattern VAMP =
      Pattern.compile("(?<!no )\\bvamp\\b", Pattern.CASE_INSENSITIVE);
  private static final Pattern ARCO = phrase("\\b(?:arco|bowed)\\b");
  private static final Pattern PIZZ = phrase("\\bpizz");
  private static final Pattern MUTE_ON = phrase("\\b(?:con sord|with mute|mute on)");
  private static final Pattern MUTE_OFF = phrase("\\b(?:senza sord|without mute|mute off)");
  private static final Pattern SAFETY =
      Pattern.compile("(?<!no )\\bsafety\\b", Pattern.CASE_INSENSITIVE);

  private final Performance performance;
  private final List<Piece> pieces;
  private final Held held;
  private List<Measure> printed = List.of();

  Needless(Performance performance, Held held) {
    this.held = held;
    this.performance = performance;
    this.pieces = performance.order().pieces();
  }

  /** Tells of each change that the book has it already, so that nothing given stays unanswered. */
  public static List<PlanFinding> told(Performance performance, List<Span> spans, Held held) {
    Needless needless = new Needless(performance, held);
    List<PlanFinding> findings = new ArrayList<>();
    for (Span span : spans) {
      boolean written =
          saidElsewhere(span) || OpenMarks.exit(performance.number(), span).isPresent();
      if (!written && needless.is(span)) {
        String text =
            "The book has this at bar "
                + performance.number().nameAt(span.from())
                + " of "
                + performance.number().spoken()
                + " already: nothing to write.";
        findings.add(
            PlanFinding.change(
                Severity.INFO,
                Optional.of(performance.number().barAt(span.from()).id()),
                "as-printed",
                text,
                span.change()));
      }
    }
    return findings;
  }

  /**
   * The cue of a printed vamp is still written; a printed repeat is told as a change of nothing.
   */
  private static boolean saidElsewhere(Span span) {
    return span.effects()
        .rounds()
        .filter(r -> r.until() == Rounds.Until.COUNTED || r.leaving().cue().isPresent())
        .isPresent();
  }

  boolean is(Span span) {
    InForce set = span.effects().inForce();
    int at = Pieces.firstAt(pieces, span.from());
    if (at >= pieces.size()) {
      return false;
    }
    if (set.tempo().isPresent()) {
      return tempo(at, set.tempo().get());
    }
    if (set.beats().isPresent()) {
      return beats(at, span, set.beats().getAsInt());
    }
    if (set.fifths().isPresent()) {
      return key(at, set.fifths().getAsInt());
    }
    if (set.instrument().isPresent()) {
      return instrument(at, set.instrument().get().toLowerCase(Locale.ROOT));
    }
    if (set.grip().isPresent()) {
      return grip(pieces.get(at), set.grip().get());
    }
    return span.effects().rounds().filter(r -> rounds(span, r)).isPresent();
  }

  /** A tempo printed at its bar, or that is in force there anyway. */
  private boolean tempo(int at, TempoSet tempo) {
    if (tempo.toPerMinute().isPresent()) {
      return false;
    }
    double quarters = tempo.perMinute() * Metronome.quarters(tempo.beat());
    Piece piece = pieces.get(at);
    TempoWords words = TempoWords.of(piece.first() ? piece.bar().words() : List.of());
    if (words.kind() != TempoWords.Kind.NONE) {
      return words.kind() == TempoWords.Kind.FIGURE && same(words.figure(), quarters);
    }
    Optional<Pace> before = at == 0 ? Optional.empty() : performance.measures().get(at - 1).pace();
    return before
        .filter(p -> !p.changes() && Math.abs(p.to() - quarters) < Figures.SAME)
        .isPresent();
  }

  private static boolean same(OptionalDouble figure, double quarters) {
    return figure.isPresent() && Math.abs(figure.getAsDouble() - quarters) < Figures.SAME;
  }

  private boolean beats(int at, Span span, int beats) {
    if (printed.isEmpty()) {
      printed = Clock.read(pieces, new ArrayList<>());
    }
    for (int i = at; i < pieces.size() && pieces.get(i).slot() <= span.to(); i++) {
      if (printed.get(i).beats() != beats) {
        return false;
      }
    }
    return true;
  }

  /** It is in hand already, or the print says so. */
  private boolean instrument(int at, String name) {
    boolean inHand = at > 0 && held.instruments().get(at - 1).equals(name);
    return inHand || HandMarks.prints(pieces.get(at), name);
  }

  private static boolean grip(Piece piece, Grip grip) {
    Optional<Pattern> print =
        switch (grip) {
          case ARCO -> Optional.of(ARCO);
          case PIZZ -> Optional.of(PIZZ);
          case MUTE_ON -> Optional.of(MUTE_ON);
          case MUTE_OFF -> Optional.of(MUTE_OFF);
          case EXTENSION -> Optional.empty();
        };
    return piece.first() && print.filter(p -> HandMarks.prints(piece.bar(), p)).isPresent();
  }

  private boolean key(int at, int fifths) {
    Optional<Key> before = at == 0 ? Optional.empty() : performance.keys().get(at - 1);
    boolean inForce = before.filter(k -> k.fifths() == fifths).isPresent();
    Piece piece = pieces.get(at);
    boolean drawn =
        piece.first()
            && piece.bar().key().filter(k -> k.printed() && k.fifths() == fifths).isPresent();
    boolean other =
        piece.first()
            && piece.bar().key().filter(k -> k.printed() && k.fifths() != fifths).isPresent();
    return drawn || (inForce && !other);
  }

  private boolean rounds(Span span, Rounds rounds) {
    Bar first = performance.number().barAt(span.from());
    Bar last = performance.number().barAt(span.to());
    if (!repeats(first, last)) {
      return false;
    }
    return switch (rounds.until()) {
      case COUNTED -> rounds.times() == last.times().orElse(2) && rounds.times() > 1;
      case CUE -> says(first, VAMP) || says(last, VAMP);
      case DIRECTOR -> says(first, SAFETY) || says(last, SAFETY);
    };
  }

  /** Tells whether repeat signs are printed around a stretch. */
  static boolean repeats(Bar first, Bar last) {
    return first.startBarline().startsRepeat() && last.endBarline().endsRepeat();
  }

  private static boolean says(Bar bar, Pattern word) {
    return bar.words().stream().anyMatch(w -> word.matcher(w.text()).find());
  }
}
