package org.barmap.plan.check;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.map.Severity;
import org.barmap.map.Word;
import org.barmap.plan.change.term.BeatWords;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.NoteValues;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.piece.Piece;

/** Says what else is other where one lands after a cut: tempo, beats, bow, mute, a pickup. */
final class CutLanding {
  private static final List<String> FIGURES =
      List.of("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine");

  private final CutReport report;
  private final Performance performance;
  private final List<Piece> pieces;
  private final List<String> bows;
  private final List<String> mutes;

  CutLanding(CutReport report, Performance performance, List<String> bows, List<String> mutes) {
    this.report = report;
    this.performance = performance;
    this.pieces = performance.order().pieces();
    this.bows = bows;
    this.mutes = mutes;
  }

  void land(CutStretch cut, int before, int after) {
    tempo(cut, before, after);
    beats(cut, before, after);
    hand(cut, "cut-bow", bows.get(before), bows.get(after), after);
    hand(cut, "cut-mute", mutes.get(before), mutes.get(after), after);
    pickup(cut, after);
  }

  private void tempo(CutStretch cut, int before, int after) {
    OptionalDouble from = performance.measures().get(before).perMinute();
    OptionalDouble to = performance.measures().get(after).perMinute();
    Optional<String> word = tempoWord(cut.first(), after);
    boolean same =
        from.isPresent() == to.isPresent()
            && Math.abs(from.orElse(0) - to.orElse(0)) < Figures.SAME;
    if (same && (from.isPresent() || word.isEmpty())) {
      return;
    }
    String said = word.map(w -> " (\"" + w + "\")").orElse("");
    String text =
        "You land "
            + (to.isPresent() ? "at " + spoken(after, to) : "in a tempo that isn't known")
            + said
            + (from.isPresent() ? ", coming from " + spoken(before, from) : "");
    boolean seen = starts(after) && tempoWord(after, after).isPresent();
    report.land(cut, after, seen, "cut-tempo", text, "the tempo");
  }

  private String spoken(int piece, OptionalDouble perMinute) {
    return NoteValues.spoken(pieces.get(piece).bar().meter(), perMinute.orElse(0));
  }

  /** Returns the last word about the tempo from one piece to another, both included. */
  private Optional<String> tempoWord(int first, int last) {
    for (int i = last; i >= first; i--) {
      List<Word> words = starts(i) ? pieces.get(i).bar().words() : List.of();
      for (int w = words.size() - 1; w >= 0; w--) {
        if (TempoWords.read(words.get(w).text()).kind() != TempoWords.Kind.NONE) {
          return Optional.of(words.get(w).text());
        }
      }
    }
    return Optional.empty();
  }

  private boolean starts(int piece) {
    return pieces.get(piece).first();
  }

  private void beats(CutStretch cut, int before, int after) {
    Measure from = performance.measures().get(before);
    Measure to = performance.measures().get(after);
    boolean meter = from.unit() != to.unit() || from.quartersOrZero() != to.quartersOrZero();
    if (meter || from.beats() == to.beats() || to.beats() == 0) {
      return;
    }
    Bar bar = pieces.get(after).bar();
    boolean seen =
        starts(after)
            && bar.words().stream()
                .anyMatch(w -> BeatWords.read(w.text(), bar.meter()).isPresent());
    String text = "You land in " + spoken(to.beats()) + ", coming from in " + spoken(from.beats());
    report.land(cut, after, seen, "cut-beats", text, "it");
  }

  private static String spoken(int beats) {
    return beats < FIGURES.size() ? FIGURES.get(beats) : Integer.toString(beats);
  }

  private void hand(CutStretch cut, String code, String from, String to, int after) {
    if (!to.isEmpty() && !from.equals(to)) {
      boolean known = !from.isEmpty();
      String text = "You land with " + word(to) + (known ? ", coming from " + word(from) : "");
      report.land(cut, after, saidAt(after, to), code, text, "it");
    }
  }

  private static String word(String hand) {
    return hand.equals("pizz") ? "pizz." : hand.contains("mute") ? "the " + hand : hand;
  }

  private boolean saidAt(int piece, String hand) {
    String word = hand.contains("mute") ? "sord" : hand;
    return starts(piece)
        && pieces.get(piece).bar().words().stream()
            .anyMatch(w -> w.text().toLowerCase(java.util.Locale.ROOT).contains(word));
  }

  /** Notes at the end of the last bar cut, after a silence, lead into the bar one lands on. */
  private void pickup(CutStretch cut, int after) {
    Piece last = pieces.get(cut.last());
    if (!last.cut() || last.rest() || last.added().isPresent()) {
      return;
    }
    double beats = last.bar().meter().map(Meter::beats).orElse(0);
    double silent = last.bar().silentStart().orElse(0.0);
    if (beats > 0 && silent >= beats / 2) {
      report.find(
          cut,
          after,
          Severity.DOUBT,
          "cut-pickup",
          "The pickup into bar "
              + report.name(after)
              + " stands in bar "
              + report.name(cut.last())
              + ", which is cut: ask whether it is played");
    }
  }
}
