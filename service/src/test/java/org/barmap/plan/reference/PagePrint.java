package org.barmap.plan.reference;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.barmap.map.Meter;
import org.barmap.plan.reference.Resolved.At;
import org.barmap.plan.reference.print.WrittenBar;
import org.barmap.plan.reference.print.WrittenNumber;
import org.barmap.plan.reference.words.TempoWords;
import org.barmap.plan.reference.words.TempoWords.Sense;

/**
 * What the print and the changes at one bar do to what is in force. Source: trade.md, landing in
 * force; where a change and the print meet at one bar, the change counts (common practice).
 */
final class PagePrint {

  /** What one word says, kept because books say the same words often. */
  private record Said(
      Sense sense,
      OptionalDouble quarters,
      Optional<String> instrument,
      Optional<String> bow,
      Optional<String> mute,
      Optional<String> beats) {
    static Said of(String word) {
      return new Said(
          TempoWords.sense(word),
          TempoWords.quarters(word),
          HandWords.instrument(word),
          HandWords.bow(word),
          HandWords.mute(word),
          HandWords.beats(word));
    }
  }

  private static final Map<String, Said> SAID = new ConcurrentHashMap<>();

  private final WrittenNumber number;
  private final List<At> settings;

  PagePrint(WrittenNumber number, List<At> settings) {
    this.number = number;
    this.settings = settings;
  }

  /** Moves on to a bar. */
  void arrive(InForce state, int at) {
    meter(state, at);
    key(state, at);
    Set<String> firstTempo = state.firstTempo;
    for (String word : number.words(at)) {
      Said said = SAID.computeIfAbsent(word, Said::of);
      tempo(state, said);
      hand(state, said);
    }
    for (At setting : settings) {
      if (setting.from() == at && setting.change().kind().equals("tempo")) {
        // Source: common practice: the change counts, so what the print says there is no tempo to
        // come back to either.
        state.firstTempo = firstTempo;
      }
      change(state, setting, at);
    }
    if (state.firstTempo.isEmpty() && !unknown(state.get(Aspect.TEMPO))) {
      state.firstTempo = state.get(Aspect.TEMPO);
    }
    beats(state, at);
  }

  private static boolean unknown(Set<String> values) {
    return values.equals(Set.of(Aspect.UNKNOWN));
  }

  private void meter(InForce state, int at) {
    // Source: barmap-format.md, meter: the meter in force, on every bar.
    SaidMeters.at(number, settings, at)
        .ifPresent(
            m -> {
              Set<String> now = Set.of(m.beats() + "/" + m.unit());
              if (!now.equals(state.get(Aspect.METER))) {
                // Source: common practice: "in two" ends with its meter.
                state.beatsSaid = Optional.empty();
              }
              state.set(Aspect.METER, now);
            });
  }

  private void key(InForce state, int at) {
    WrittenBar bar = number.bar(at);
    bar.entry()
        .key()
        .ifPresent(
            k -> {
              if (k.printed() && bar.first()) {
                state.keySaid = Optional.empty();
              }
              state.set(Aspect.KEY, Integer.toString(k.fifths()));
            });
    state.keySaid.ifPresent(said -> state.set(Aspect.KEY, said));
  }

  private static void tempo(InForce state, Said word) {
    Set<String> before = state.get(Aspect.TEMPO);
    Sense sense = word.sense();
    if (sense != Sense.NONE && sense != Sense.GRADUAL && sense != Sense.A_TEMPO) {
      state.beforeGradual = Set.of();
    }
    switch (sense) {
      case FIGURE -> state.set(Aspect.TEMPO, Aspect.figure(word.quarters().getAsDouble()));
      // Source: trade.md: double and half time are known if the tempo before is.
      case DOUBLE -> relative(state, times(before, 2));
      case HALF -> relative(state, times(before, 0.5));
      // Source: common practice.
      case TEMPO_I -> {
        if (state.firstTempo.isEmpty()) {
          // The number begins in a tempo of before; a later figure is not its first tempo.
          state.firstTempo = Set.of(Aspect.UNKNOWN);
        }
        state.set(Aspect.TEMPO, state.firstTempo);
      }
      case A_TEMPO -> {
        if (!state.beforeGradual.isEmpty()) {
          state.set(Aspect.TEMPO, state.beforeGradual);
        } else {
          state.set(Aspect.TEMPO, InForce.union(before, Set.of(Aspect.UNKNOWN)));
        }
        state.beforeGradual = Set.of();
      }
      case GRADUAL -> {
        if (state.beforeGradual.isEmpty()) {
          state.beforeGradual = before;
        }
        state.set(Aspect.TEMPO, Aspect.ANY);
      }
      case SAME -> state.set(Aspect.TEMPO, InForce.union(before, Set.of(Aspect.UNKNOWN)));
      // Source: trade.md, a word without a figure.
      case BARE -> {
        state.set(Aspect.TEMPO, Aspect.UNKNOWN);
        if (state.firstTempo.isEmpty()) {
          state.firstTempo = Set.of(Aspect.UNKNOWN);
        }
      }
      case NONE -> {}
    }
  }

  /** A number that opens in twice of what nobody knows has an unknown first tempo. */
  private static void relative(InForce state, Set<String> tempo) {
    state.set(Aspect.TEMPO, tempo);
    if (state.firstTempo.isEmpty() && unknown(tempo)) {
      state.firstTempo = tempo;
    }
  }

  private static Set<String> times(Set<String> values, double by) {
    return values.stream()
        .map(v -> v.matches("[\\d.]+") ? Aspect.figure(Double.parseDouble(v) * by) : v)
        .collect(Collectors.toSet());
  }

  private static void hand(InForce state, Said word) {
    word.instrument().ifPresent(i -> take(state, i));
    word.bow().ifPresent(b -> state.set(Aspect.BOW, b));
    word.mute().ifPresent(m -> state.set(Aspect.MUTE, m));
    word.beats()
        .ifPresent(
            b -> {
              state.beatsSaid = Optional.of(b);
              state.lastSaid = state.beatsSaid;
            });
  }

  private static void take(InForce state, String instrument) {
    if (!state.get(Aspect.INSTRUMENT).equals(Set.of(instrument))) {
      // The trade texts do not say how another instrument is played at first.
      state.set(Aspect.BOW, Aspect.ANY);
      state.set(Aspect.MUTE, Aspect.ANY);
    }
    state.set(Aspect.INSTRUMENT, instrument);
  }

  private static void change(InForce state, At setting, int at) {
    Change change = setting.change();
    boolean begins = setting.from() == at;
    switch (change.kind()) {
      case "key" -> {
        if (begins) {
          state.keySaid = Optional.of(Integer.toString(change.whole("fifths", 0)));
          state.set(Aspect.KEY, state.keySaid.get());
        }
      }
      case "instrument" -> {
        if (begins) {
          take(state, HandWords.written(change.text("to").orElse("")));
        }
      }
      case "tempo" -> tempoChange(state, setting, at);
      default -> {}
    }
  }

  private static void tempoChange(InForce state, At setting, int at) {
    Change change = setting.change();
    boolean stretch = change.has("last");
    boolean ramp = change.has("toPerMinute");
    double beat = Resolved.beat(change);
    if (setting.from() == at) {
      state.beforeGradual = Set.of();
      state.set(Aspect.TEMPO, ramp ? Aspect.ANY : Aspect.figure(beat * change.figure("perMinute")));
    } else if (stretch && at == setting.to() + 1) {
      // What counts behind a stretch with its own tempo is nowhere said.
      state.set(
          Aspect.TEMPO, ramp ? Aspect.figure(beat * change.figure("toPerMinute")) : Aspect.ANY);
    }
  }

  private void beats(InForce state, int at) {
    Set<String> usual =
        SaidMeters.at(number, settings, at).map(PagePrint::shown).orElse(Set.of("*"));
    Set<String> now = state.beatsSaid.map(Set::of).orElse(usual);
    if (SaidMeters.behind(settings, at)) {
      // Nobody says whether an "in two" of before counts again behind bars in another meter.
      now = InForce.union(usual, InForce.union(now, state.lastSaid.map(Set::of).orElse(now)));
    }
    for (At setting : settings) {
      // Source: plan-format.md, changes/1: beats of a stretch, first to last.
      if (setting.change().kind().equals("beats") && setting.from() <= at && at <= setting.to()) {
        Set<String> said = Set.of(Integer.toString(setting.change().whole("beats", 0)));
        now = meterPrintedInside(setting, at) ? InForce.union(said, now) : said;
      }
    }
    state.set(Aspect.BEATS, now);
  }

  private boolean meterPrintedInside(At setting, int at) {
    for (int k = setting.from() + 1; k <= at; k++) {
      WrittenBar bar = number.bar(k);
      if (SaidMeters.begins(settings, k)) {
        return true;
      }
      if (bar.first() && bar.entry().meter().filter(Meter::printed).isPresent()) {
        return true;
      }
    }
    return false;
  }

  // Source: trade.md, in two, in four: 6/8 often in two, 12/8 in four, 2/2 in two.
  static Set<String> shown(Meter meter) {
    int beats = meter.beats();
    boolean compound = meter.unit() >= 8 && beats % 3 == 0;
    if (compound && beats > 3) {
      return Set.of(Integer.toString(beats / 3));
    }
    // Source: common practice: five quarters are beaten as five (two or three unequal beats are
    // said); five or seven eighths are not, their groups are nobody's guess.
    boolean plain = meter.unit() <= 4 && beats <= (meter.unit() == 4 ? 5 : 4);
    return plain ? Set.of(Integer.toString(beats)) : Set.of("*");
  }
}
