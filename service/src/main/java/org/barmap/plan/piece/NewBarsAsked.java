package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.Off;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Added;
import org.barmap.plan.change.kind.ShowChange;

/** What is asked about bars that are added. */
final class NewBarsAsked {
  private final WrittenNumber number;
  private final BarNames names;
  private final List<Span> cuts;
  private final Choices choices;
  private final Map<String, ShowChange> labelled = new HashMap<>();

  NewBarsAsked(WrittenNumber number, BarNames names, List<Span> spans, Choices choices) {
    this.number = number;
    this.names = names;
    this.cuts = spans.stream().filter(s -> s.effects().leavesOut()).toList();
    this.choices = choices;
  }

  /** Asks whether the bars are rests, where that isn't said. */
  void content(Span span, Added added) {
    if (added.rest().isPresent()) {
      return;
    }
    boolean inRest = number.barAt(span.from()).isRest();
    ShowChange change = span.change();
    String text =
        inRest
            ? ", beside a rest: are they rests or music? Until that is said they are taken for music"
            : ": are they rests or music? Until that is said they are taken for music, and no rest is"
                + " counted in them";
    PlanFinding finding =
        finding(span, Severity.DOUBT, "insert-content", bars(added) + where(span, added) + text);
    List<Question.Reading> readings = new ArrayList<>();
    for (boolean rest : List.of(true, false)) {
      readings.add(
          new Question.Reading(
              rest ? "rest" : "music", Optional.empty(), List.of(change.asRest(rest))));
    }
    Optional<String> about = Optional.of(names.at(span.from()));
    choices.tell(finding.asking(new Question(Question.Topic.INSERT, about, readings, 1)));
  }

  /** Asks about a name that another bar has. */
  void labels(Span span, Added added) {
    for (String label : added.labels()) {
      String key = label.toLowerCase(Locale.ROOT);
      Optional<ShowChange> other = Optional.ofNullable(labelled.put(key, span.change()));
      boolean printed =
          number.bars().stream().anyMatch(b -> b.label().filter(key::equalsIgnoreCase).isPresent());
      if (printed || other.isPresent()) {
        String whose = printed ? "The book has a bar " : "Another change adds a bar ";
        PlanFinding finding =
            finding(
                span,
                Severity.DOUBT,
                "insert-label",
                whose + label + " already; what is the new one called");
        choices.tell(
            finding.asking(
                new Question(
                    Question.Topic.INSERT,
                    Optional.of(names.at(span.from())),
                    List.of(
                        Question.Reading.of(label + " means the bar that had the name first"),
                        Question.Reading.of("the new bar has another name")))));
        return;
      }
    }
  }

  /**
   * Asks about bars added where others were added before.
   *
   * @return 0: after them; 1: before them; -1: not at all
   */
  int order(Span span, Added added, List<NewBars.Row> here) {
    boolean same =
        here.stream().anyMatch(r -> r.span().effects().added().filter(added::equals).isPresent());
    String text = "Bars are added" + where(span, added) + " by more than one change";
    if (same) {
      int way =
          ask(
              span,
              "insert-same",
              Question.Topic.DUPLICATE,
              text + ", as many each time",
              List.of(
                  new Choices.Way("said twice, they come once", List.of(Off.of(span.change()))),
                  Choices.Way.of("they come twice")));
      return way == 0 ? -1 : 0;
    }
    return ask(
        span,
        "insert-twice",
        Question.Topic.INSERT,
        text,
        List.of(
            Choices.Way.of("in the order given"), Choices.Way.of("the later change comes first")));
  }

  /** Asks whether bars added inside bars that are cut are played. */
  boolean stays(Span span, Added added) {
    int first = added.before() ? span.from() - 1 : span.from();
    boolean inside = isCut(first) && isCut(first + 1);
    return inside
        && ask(
                span,
                "insert-in-cut",
                Question.Topic.INSERT,
                bars(added) + where(span, added) + ", inside bars that are cut",
                List.of(
                    new Choices.Way("they are out too", List.of(Off.of(span.change()))),
                    Choices.Way.of("they are played in place of what is cut")))
            == 1;
  }

  /** Tells whether a written bar is cut, and the signs in it. */
  boolean isCut(int slot) {
    return cuts.stream()
        .anyMatch(c -> c.fromAdded().isEmpty() && c.from() <= slot && c.to() >= slot);
  }

  /** Asks on which side of a sign bars stand; true where the sign stands beyond them. */
  boolean takesSigns(Span span, Added added, String sign) {
    Choices.Way before = Choices.Way.of("before " + sign);
    Choices.Way behind = Choices.Way.of("behind " + sign);
    PlanFinding finding =
        finding(
            span,
            Severity.DOUBT,
            "insert-edge",
            bars(added) + where(span, added) + ", where " + sign + " stands");
    int way =
        choices.ask(
            new Choices.Asked(
                    finding, Question.Topic.REPEAT, names.at(span.from()), List.of(before, behind))
                .hearing(span.change()));
    return added.before() == (way == 1);
  }

  private int ask(
      Span span, String code, Question.Topic topic, String text, List<Choices.Way> ways) {
    PlanFinding finding = finding(span, Severity.DOUBT, code, text);
    return choices.ask(new Choices.Asked(finding, topic, names.at(span.from()), ways));
  }

  private PlanFinding finding(Span span, Severity severity, String code, String text) {
    Optional<String> at = Optional.of(number.barAt(span.from()).id());
    return PlanFinding.change(severity, at, code, text + ".", span.change());
  }

  private static String bars(Added added) {
    return added.bars() == 1 ? "A bar is added" : added.bars() + " bars are added";
  }

  private String where(Span span, Added added) {
    return (added.before() ? " before bar " : " after bar ") + number.nameAt(span.from());
  }
}
