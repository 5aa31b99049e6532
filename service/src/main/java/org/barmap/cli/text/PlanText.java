package org.barmap.cli.text;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.barmap.exchange.chair.TheirBars;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Severity;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.pace.Length;
import org.barmap.plan.page.CheckedPages;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Turn;

/** A plan in words. */
public final class PlanText {

  private final BarMap map;
  private final Optional<TheirBars> theirs;
  private final Map<String, String> numberOf = new HashMap<>();
  private final StringBuilder text = new StringBuilder();

  private PlanText(BarMap map, Optional<TheirBars> theirs) {
    this.map = map;
    this.theirs = theirs;
    for (MusicalNumber number : map.numbers()) {
      map.barsOf(number).forEach(b -> numberOf.putIfAbsent(b.id(), number.label()));
    }
  }

  /** Returns a plan in words, without a line break at its end. */
  public static String of(BarMap map, Plan plan) {
    return of(map, plan, Optional.empty());
  }

  /** Returns the same; what bars are called in another part stands behind them. */
  public static String of(BarMap map, Plan plan, Optional<TheirBars> theirs) {
    PlanText made = new PlanText(map, theirs);
    made.checked(plan.checked());
    plan.numbers().forEach(made::number);
    made.turns(plan);
    if (theirs.isPresent()) {
      made.rests(plan);
    }
    for (PlanFinding finding : plan.findings()) {
      made.line(
          (finding.severity() == Severity.ERROR ? "Wrong: " : "Note: ")
              + finding.text()
              + finding.at().map(at -> " (" + made.bar(at) + ")").orElse(""));
    }
    return made.text.toString().stripTrailing();
  }

  private void checked(CheckedPages checked) {
    if (checked.pages() < checked.of()) {
      line(checked.pages() + " of " + Saying.many(checked.of(), "page") + " checked by a person");
    }
  }

  private void line(String line) {
    text.append(line).append('\n');
  }

  private void number(NumberPlan n) {
    String name = n.label().isEmpty() ? "The book" : BookNumbers.spoken(n.label());
    String title = n.title().isEmpty() ? "" : " " + n.title();
    if (n.state() == NumberPlan.State.PLAYED) {
      line(
          String.format(
              Locale.ROOT,
              "%-34s %4d bars written, %s played%s",
              name + title,
              n.written(),
              length(n.played()),
              n.cut().bars() > 0 ? ", " + length(n.cut()) + " cut" : ""));
      n.open()
          .forEach(
              o -> line("    " + o.kind().word() + " " + bar(o.first()) + " to " + last(o.last())));
      n.known()
          .ifPresent(
              k ->
                  line(
                      "    "
                          + plain(k.seconds())
                          + " s for the "
                          + Saying.many(k.bars(), "bar")
                          + " with a tempo; "
                          + plain(k.barsWithout())
                          + (k.barsWithout() == 1 ? " has none" : " have none")));
    } else {
      line(String.format(Locale.ROOT, "%-34s %s", name + title, n.state().word()));
    }
  }

  private void turns(Plan plan) {
    for (Turn t : plan.turns()) {
      line(
          "Turn from page "
              + t.fromPage()
              + " to "
              + t.toPage()
              + " after "
              + last(t.leaves())
              + ": "
              + length(t.gap())
              + " without notes"
              + t.free().map(f -> " (" + f + ")").orElse("")
              + ", "
              + t.verdict().word()
              + t.mark().map(m -> ", write " + m).orElse("")
              + (t.unsure().isEmpty() ? "" : "; not checked: " + String.join("; ", t.unsure())));
    }
  }

  /** Long rests, whose bars a player and a director have to agree on. */
  private void rests(Plan plan) {
    for (LongRest rest : plan.rests()) {
      line(
          "Rest of "
              + Saying.many(rest.bars(), "bar")
              + " from "
              + bar(rest.first())
              + " to "
              + last(rest.last())
              + rest.entrance().map(e -> ", in at " + bar(e)).orElse(""));
    }
  }

  private static String length(Length length) {
    String bars = Saying.many(length.bars(), "bar");
    String beats = length.beats().map(b -> ", " + Saying.many(b, "beat")).orElse("");
    Optional<Double> seconds = length.seconds();
    return bars + beats + seconds.map(s -> ", " + plain(s) + " s").orElse("");
  }

  private static String plain(double value) {
    return value == Math.rint(value)
        ? Long.toString(Math.round(value))
        : String.format(Locale.ROOT, "%.1f", value);
  }

  private String bar(String id) {
    return called(id, 0);
  }

  private String last(String id) {
    return called(id, map.bar(id).map(b -> b.count() - 1).orElse(0));
  }

  private String called(String id, int k) {
    Optional<String> name =
        map.bar(id).map(b -> b.label().orElseGet(() -> Integer.toString(b.number() + k)));
    return name.map(
            n ->
                "bar "
                    + n
                    + theirs
                        .flatMap(t -> t.beside(numberOf.getOrDefault(id, ""), n, n))
                        .map(b -> " [" + b + "]")
                        .orElse(""))
        .orElse(id);
  }
}
