package org.barmap.plan.pace;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.map.Word;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.TempoSet;
import org.barmap.plan.change.term.BeatWords;
import org.barmap.plan.change.term.Metronome;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.piece.Inserted;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/**
 * Tells how long the pieces of a number last.
 *
 * <p>Meter, tempo and the number of beats hold from where they stand, in reading order, also from
 * bars that are cut: the player lands in them. A tempo is known from a metronome mark or a tempo
 * change until words call for another tempo, see {@link Tempi}; a rit. or an accel. is known where
 * the tempo it leads to is given, see {@link Ramp}; nothing is guessed. Beats: as the change or the
 * words ("in two") say, else a compound meter (6/8, 9/8, 12/8) in dotted beats, any other in its
 * lower figure (common practice).
 */
public final class Clock {
  private final List<Measure> measures = new ArrayList<>();
  private final Map<Integer, List<Span>> starting = new HashMap<>();
  private final Map<Span, Integer> places = new IdentityHashMap<>();
  private final List<Span> beatsInForce = new ArrayList<>();

  private final Tempi tempi = new Tempi();
  private OptionalInt said = OptionalInt.empty();
  private Optional<Meter> meter = Optional.empty();

  /** A rit. or accel. printed in the book, waiting for the tempo it leads to. */
  private Optional<Ramp> ramp = Optional.empty();

  /** A change of tempo by and by, and the way there. */
  private Optional<Led> led = Optional.empty();

  /** A tempo that a change leads to another until a slot. */
  private record Led(Ramp ramp, int last, double to) {}

  private Clock() {}

  /** Returns a measure for each piece, in the same order. */
  public static List<Measure> read(List<Piece> pieces, List<Span> spans) {
    return read(pieces, spans, OptionalDouble.empty());
  }

  /**
   * Returns a measure for each piece, in the same order.
   *
   * @param before quarters a minute that hold on from the number before, where this one follows it
   *     in time
   */
  public static List<Measure> read(List<Piece> pieces, List<Span> spans, OptionalDouble before) {
    Clock clock = new Clock();
    clock.tempi.holdOn(before);
    for (int i = 0; i < spans.size(); i++) {
      clock.places.put(spans.get(i), i);
    }
    for (Span span : spans) {
      InForce set = span.effects().inForce();
      if (set.tempo().isPresent() || set.beats().isPresent()) {
        clock.starting.computeIfAbsent(span.from(), k -> new ArrayList<>(1)).add(span);
      }
    }
    for (Piece piece : pieces) {
      clock.arrive(pieces, piece);
      clock.one(pieces, piece);
    }
    clock.led.ifPresent(l -> l.ramp.fill(pieces, clock.measures, pieces.size(), l.to));
    return List.copyOf(clock.measures);
  }

  /** Ends a change of tempo by and by where its last bar is over. */
  private void arrive(List<Piece> pieces, Piece piece) {
    led.filter(l -> piece.slot() > l.last && piece.inserted().isEmpty())
        .ifPresent(
            l -> {
              l.ramp.fill(pieces, measures, measures.size(), l.to);
              led = Optional.empty();
              set(pieces, l.to);
            });
  }

  private void one(List<Piece> pieces, Piece piece) {
    tempi.nextBar();
    if (piece.first()) {
      Bar bar = piece.bar();
      Optional<Meter> before = meter;
      Optional<Meter> now = bar.meter();
      boolean other = now.isPresent() && meter.filter(m -> m.sameAs(now.get())).isEmpty();
      if (other) {
        said = OptionalInt.empty();
      }
      meter = now.or(() -> meter);
      words(pieces, bar.words(), before);
    }
    if (piece.inserted().isEmpty()) {
      for (Span span : starting.getOrDefault(piece.slot(), List.of())) {
        InForce set = span.effects().inForce();
        set.tempo().ifPresent(t -> change(pieces, t, span.to()));
        if (set.beats().isPresent()) {
          beatsInForce.add(span);
        }
      }
    }
    if (piece.inserted().isEmpty()) { // inserted bars are beaten like the bar they come after
      beatsInForce.removeIf(s -> s.to() < piece.slot());
    }
    OptionalInt beats = said;
    int latest = -1;
    for (Span span : beatsInForce) {
      int place = places.getOrDefault(span, 0);
      if (place > latest) {
        latest = place;
        beats = span.effects().inForce().beats();
      }
    }
    Optional<Meter> own = piece.added().flatMap(Inserted::meter);
    // bars added in the meter that is there are shown as it is
    boolean alike =
        own.equals(meter.map(m -> m.withPrinted(own.map(Meter::printed).orElse(false))));
    OptionalInt said = own.isPresent() && !alike ? OptionalInt.empty() : beats;
    Optional<Meter> here = own.or(() -> meter);
    int shown = said.orElse(here.map(Clock::usualBeats).orElse(0));
    OptionalDouble quarters =
        here.map(m -> OptionalDouble.of(m.quarters())).orElse(OptionalDouble.empty());
    int unit = here.map(Meter::unit).orElse(0);
    measures.add(new Measure(quarters, shown, unit, pace(), isUpbeat(pieces, piece)));
  }

  /** Tells whether a pickup has a meter of its own, shorter than that of the bar it leads to. */
  private boolean isUpbeat(List<Piece> pieces, Piece piece) {
    int next = measures.size() + 1;
    if (!piece.pickup() || meter.isEmpty() || next >= pieces.size()) {
      return false;
    }
    double long0 = meter.get().quarters();
    return pieces.get(next).bar().meter().filter(m -> m.quarters() > long0).isPresent();
  }

  private Optional<Pace> pace() {
    OptionalDouble tempo = tempi.now();
    return tempo.isPresent() ? Optional.of(Pace.even(tempo.getAsDouble())) : Optional.empty();
  }

  private void change(List<Piece> pieces, TempoSet change, int last) {
    double share = Metronome.quarters(change.beat());
    double from = change.perMinute() * share;
    set(pieces, from);
    led =
        change
            .toPerMinute()
            .map(
                to -> new Led(new Ramp(measures.size(), from, Optional.empty()), last, to * share));
  }

  private void set(List<Piece> pieces, double perMinute) {
    ramp.ifPresent(r -> r.fill(pieces, measures, measures.size(), perMinute));
    ramp = Optional.empty();
    led = Optional.empty();
    tempi.set(perMinute, measures.isEmpty());
  }

  private void words(List<Piece> pieces, List<Word> words, Optional<Meter> before) {
    for (Word word : words) {
      OptionalInt beats = BeatWords.read(word.text(), meter);
      said = beats.isPresent() ? beats : said;
    }
    TempoWords tempo = TempoWords.of(words);
    if (led.isPresent() || tempo.kind() == TempoWords.Kind.NONE) {
      return; // a change on its way to another tempo says how fast these bars go
    }
    OptionalDouble from = tempi.now();
    switch (tempo.kind()) {
      case FIGURE -> set(pieces, tempo.figure().orElseThrow());
      case SLOWING, QUICKENING -> {
        boolean slower = tempo.kind() == TempoWords.Kind.SLOWING;
        ramp =
            from.isPresent()
                ? Optional.of(new Ramp(measures.size(), from.getAsDouble(), Optional.of(slower)))
                : Optional.empty();
        tempi.say(tempo, before, meter);
      }
      default -> {
        ramp = Optional.empty();
        tempi.say(tempo, before, meter);
      }
    }
  }

  /** Returns how many beats a meter is usually shown in. */
  public static int usualBeats(Meter meter) {
    boolean compound = meter.beats() > 3 && meter.beats() % 3 == 0 && meter.unit() >= 8;
    return compound ? meter.beats() / 3 : meter.beats();
  }
}
