package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.Meter;
import org.barmap.map.Severity;
import org.barmap.plan.change.Address;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.NoteNames;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/**
 * Beats that bars are cut from or to: where the director shows other beats than the meter's lower
 * figure, "beat 2" may be either.
 */
public final class ShownBeats {
  private ShownBeats() {}

  /** Returns what is asked about beats that may be those shown or those of the meter. */
  public static List<PlanFinding> asked(
      WrittenNumber number, List<Piece> pieces, List<Measure> measures, List<Span> spans) {
    List<PlanFinding> findings = new ArrayList<>();
    List<Span> beats =
        spans.stream()
            .filter(s -> s.effects().leavesOut())
            .filter(s -> s.fromBeat().isPresent() || s.toBeat().isPresent())
            .toList();
    if (beats.isEmpty()) {
      return findings;
    }
    Map<Integer, Integer> shown = new HashMap<>();
    for (int i = 0; i < pieces.size(); i++) {
      if (pieces.get(i).inserted().isEmpty()) {
        int each =
            otherwise(number, pieces.get(i)).map(Meter::beats).orElse(measures.get(i).beats());
        for (int k = 0; k < pieces.get(i).count(); k++) {
          shown.put(pieces.get(i).slot() + k, each);
        }
      }
    }
    for (Span span : beats) {
      span.change().where().flatMap(w -> one(number, span, w, shown)).ifPresent(findings::add);
    }
    return findings;
  }

  /** Where a change asks for another meter, the beats of a cut are those that are printed. */
  private static Optional<Meter> otherwise(WrittenNumber number, Piece piece) {
    return number
        .barAt(piece.slot())
        .meter()
        .filter(w -> piece.bar().meter().filter(p -> !w.sameAs(p)).isPresent());
  }

  private static Optional<PlanFinding> one(
      WrittenNumber number, Span span, Stretch said, Map<Integer, Integer> shown) {
    End first = End.of(number, span.from(), span.fromBeat(), said.first(), shown);
    End last = End.of(number, span.to(), span.toBeat(), said.last(), shown);
    End unsure = first.unsure() ? first : last;
    if (!unsure.unsure()) {
      return Optional.empty();
    }
    List<Question.Reading> readings = new ArrayList<>();
    readings.add(
        reading(span.change(), "beats of the meter", first.counted(false), last.counted(false)));
    Optional<String> from = first.asShown(true);
    Optional<String> to = last.asShown(false);
    if (unsure.groups()) {
      readings.add(Question.Reading.of("beats as the director groups them"));
    } else if (from.isPresent() && to.isPresent()) {
      readings.add(
          reading(
              span.change(), "beats as the director shows them", from.orElse(""), to.orElse("")));
    }
    String text =
        number.spoken()
            + ": bar "
            + number.nameAt(unsure.slot)
            + (unsure.groups()
                ? " may be shown in groups and has "
                : " is shown in " + unsure.shown + " and has ")
            + unsure.beats()
            + " in its meter; which beats are cut?";
    return Optional.of(
        PlanFinding.change(
                Severity.DOUBT,
                Optional.of(number.barAt(unsure.slot).id()),
                "cut-beat-shown",
                text,
                span.change())
            .asking(
                new Question(
                    Question.Topic.BEATS, Optional.of(number.nameAt(unsure.slot)), readings)));
  }

  private static Question.Reading reading(
      ShowChange change, String says, String first, String last) {
    return new Question.Reading(
        says + ": " + first + " to " + last,
        Optional.empty(),
        change.over(first, last).map(List::of).orElse(List.of()));
  }

  /** One end of a cut; its beat is counted in the meter's lower figure. */
  private record End(
      WrittenNumber number, int slot, OptionalDouble beat, String said, boolean sure, int shown) {

    static End of(
        WrittenNumber number,
        int slot,
        OptionalDouble beat,
        String said,
        Map<Integer, Integer> shown) {
      boolean sure =
          beat.isEmpty() || Address.parse(said).filter(a -> a.unit().isPresent()).isPresent();
      return new End(number, slot, beat, said, sure, shown.getOrDefault(slot, 0));
    }

    int beats() {
      return number.barAt(slot).meter().map(Meter::beats).orElse(0);
    }

    boolean unsure() {
      return !sure && (shown != beats() || groups());
    }

    /** Five, seven, eight or more eighths are shown in groups that the meter doesn't tell. */
    boolean groups() {
      return shown == beats()
          && beats() > 4
          && number.barAt(slot).meter().filter(m -> m.unit() >= 8).isPresent();
    }

    String counted(boolean asShown) {
      return sure && !asShown ? said : named(beat.orElse(1));
    }

    /**
     * The same count of the beats shown: a first beat begins, a last one ends with its bar part.
     */
    Optional<String> asShown(boolean first) {
      if (!unsure()) {
        return Optional.of(said);
      }
      if (shown == 0 || beats() % shown != 0) {
        return Optional.empty();
      }
      int per = beats() / shown;
      double at = first ? (beat.orElse(1) - 1) * per + 1 : beat.orElse(1) * per;
      return at > beats() ? Optional.empty() : Optional.of(named(at));
    }

    private String named(double at) {
      int unit = number.barAt(slot).meter().map(Meter::unit).orElse(0);
      return number.nameAt(slot) + " " + NoteNames.of(unit) + " " + Figures.plain(at);
    }
  }
}
