package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Span;

/** A number that runs with a track doesn't wait: what is held open in it is asked. */
public final class TrackChecks {
  private TrackChecks() {}

  /** Returns what is asked about a number; nothing where it runs without a track. */
  public static List<PlanFinding> of(
      OrderOfPlay order, List<ShowChange> changes, List<Span> spans) {
    List<PlanFinding> findings = new ArrayList<>();
    if (changes.stream().noneMatch(c -> c.effects().course().track())) {
      return findings;
    }
    WrittenNumber number = order.number();
    for (OpenStretch open : order.open()) {
      String first = name(number, open.first());
      String text =
          number.spoken()
              + " runs with a track, which doesn't wait: how often is the "
              + open.kind().word()
              + " from bar "
              + first
              + " played? The plan goes by once.";
      findings.add(
          ask(
              number,
              open.first(),
              first,
              text,
              List.of(played(number, open, 1), played(number, open, 2)),
              open.change()));
    }
    for (Span span : spans) {
      if (span.effects().course().put().flatMap(p -> p.sign()).isPresent()) {
        String first = number.nameAt(span.from());
        String text =
            number.spoken()
                + " runs with a track, which doesn't wait: the "
                + span.change().kind()
                + " at bar "
                + first
                + " can't be as long as one likes.";
        findings.add(
            ask(
                number,
                number.barAt(span.from()).id(),
                first,
                text,
                List.of(
                    Question.Reading.of("the track waits as long as it was made to"),
                    Question.Reading.of("without the track")),
                Optional.of(span.change().meta().id())));
      }
    }
    return findings;
  }

  /** With a track the bars are counted, in the place of what held them open. */
  private static Question.Reading played(WrittenNumber number, OpenStretch open, int times) {
    String[] ends = open.bars().split("-", 2);
    ShowChange counted =
        ShowChange.played(
            Meta.of("track-" + ends[0]), number.label(), ends[0], ends[ends.length - 1], times);
    return new Question.Reading(
        times == 1 ? "played once" : "played twice", Optional.empty(), List.of(counted));
  }

  private static PlanFinding ask(
      WrittenNumber number,
      String at,
      String first,
      String text,
      List<Question.Reading> ways,
      Optional<String> change) {
    return new PlanFinding(
            Severity.DOUBT, Optional.of(at), "track", text, change, List.of(), Optional.empty())
        .asking(new Question(Question.Topic.TRACK, Optional.of(first), ways));
  }

  private static String name(WrittenNumber number, String id) {
    for (int i = 0; i < number.bars().size(); i++) {
      if (number.bars().get(i).id().equals(id)) {
        return number.nameAt(number.starts()[i]);
      }
    }
    return id;
  }
}
