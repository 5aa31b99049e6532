package org.barmap.plan.reference.against;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.Cuts.Left;
import org.barmap.plan.reference.Questions.Ask;
import org.barmap.plan.reference.ReferenceWalker;
import org.barmap.plan.reference.Walked;
import org.barmap.plan.reference.Walked.OfNumber;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.Walked.Reading;
import org.barmap.plan.reference.Walked.Sounding;
import org.barmap.plan.reference.against.PlanUnderTest.Passes;
import org.barmap.plan.reference.against.PlanUnderTest.Planned;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedBar;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedNumber;
import org.barmap.plan.reference.books.RandomBook;

/** Compares a plan of a book with what the walker finds, bar by bar. */
public final class Comparison {

  /**
   * The result for one book: its worst number's.
   *
   * @param number the label of that number, or empty
   * @param says what differs, to read
   * @param bars bars whose order was compared and is the same
   * @param facts values in force that were compared and are right, where only one is
   */
  public record Result(Verdict verdict, String number, String says, int bars, int facts) {}

  private static final Set<String> OF_OPEN =
      Set.of("vamp-print", "open-overlap", "open-over-repeat", "open-cut", "play-over-vamp");

  private final PlanUnderTest plan;

  /** Compares one planner. */
  public Comparison(PlanUnderTest plan) {
    this.plan = plan;
  }

  /** Compares one book. */
  public Result compare(RandomBook book) {
    Walked walked = ReferenceWalker.walk(book.map(), book.json(), book.repeatsAfterJump());
    Planned planned;
    try {
      planned = plan.plan(book.map(), book.json(), book.repeatsAfterJump());
    } catch (RuntimeException e) {
      return new Result(Verdict.FAILED, "", e.toString(), 0, 0);
    }
    if (!walked.asked().isEmpty()) {
      return ofBook(walked, planned);
    }
    List<String> shown = walked.numbers().stream().map(OfNumber::label).toList();
    List<String> found = planned.numbers().stream().map(PlannedNumber::label).toList();
    if (!shown.equals(found)) {
      String says = "numbers: walker " + shown + ", plan " + found;
      return new Result(Verdict.NUMBERS, "", says, 0, 0);
    }
    return worst(walked, planned);
  }

  /** What is asked of the book as a whole says nothing of what its numbers are. */
  private Result ofBook(Walked walked, Planned planned) {
    boolean asks = planned.asked() || planned.numbers().stream().anyMatch(PlannedNumber::asked);
    String says = "the walker asks " + says(walked.asked());
    if (!asks) {
      return new Result(Verdict.PLAN_GUESSES, "", says, 0, 0);
    }
    Result worst = new Result(Verdict.BOTH_ASK, "", says, 0, 0);
    for (OfNumber number : walked.numbers()) {
      for (PlannedNumber found : planned.numbers()) {
        // What is in hand hangs on the number before, and that is asked.
        boolean same = found.label().equals(number.label());
        Result result = same ? number(number, found, true, false) : worst;
        worst = result.verdict().compareTo(worst.verdict()) > 0 ? result : worst;
      }
    }
    return worst;
  }

  private Result worst(Walked walked, Planned planned) {
    Result worst = new Result(Verdict.AGREE, "", "", 0, 0);
    int bars = 0;
    int facts = 0;
    boolean carriesOn = true;
    for (int k = 0; k < walked.numbers().size(); k++) {
      OfNumber number = walked.numbers().get(k);
      Result result = number(number, planned.numbers().get(k), planned.asked(), carriesOn);
      // What is in hand after a number that is asked about is not sure either.
      carriesOn &= number.asked().isEmpty();
      bars += result.bars();
      facts += result.facts();
      if (result.verdict().compareTo(worst.verdict()) > 0) {
        worst = result;
      }
    }
    return new Result(worst.verdict(), worst.number(), worst.says(), bars, facts);
  }

  private Result number(OfNumber walked, PlannedNumber found, boolean bookAsked, boolean sure) {
    String label = walked.label();
    boolean asks = found.asked() || bookAsked;
    if (!walked.asked().isEmpty()) {
      return asked(walked, found, asks, sure);
    }
    if (walked.playing() != found.playing()) {
      String says = "walker " + walked.playing() + ", plan " + found.playing();
      return new Result(Verdict.PLAYING, label, says, 0, 0);
    }
    if (walked.playing() != Playing.PLAYED) {
      return new Result(Verdict.AGREE, label, "", 0, 0);
    }
    if (!keys(walked.order()).equals(foundKeys(found))) {
      String says = difference(keys(walked.order()), foundKeys(found)) + found.says();
      return new Result(asks ? Verdict.PLAN_ASKS : Verdict.ORDER, label, says, 0, 0);
    }
    return sameOrder(new Reading(walked.order(), walked.open()), found, asks, sure);
  }

  /** Where the walker asks, what the plan shows has to be one of the readings, as a whole. */
  private Result asked(OfNumber walked, PlannedNumber found, boolean asks, boolean sure) {
    String says = "the walker asks " + says(walked.asked());
    String label = walked.label();
    if (walked.playing() != Playing.PLAYED) {
      return new Result(asks ? Verdict.BOTH_ASK : Verdict.PLAN_GUESSES, label, says, 0, 0);
    }
    List<Reading> read =
        walked.readings().stream().filter(r -> keys(r.order()).equals(foundKeys(found))).toList();
    if (read.isEmpty() || !asks) {
      Verdict silent = read.isEmpty() ? Verdict.PLAN_INVENTS : Verdict.PLAN_GUESSES;
      says += "; the plan plays " + foundKeys(found) + found.says();
      return new Result(asks ? Verdict.ASKS_OTHERWISE : silent, label, says, 0, 0);
    }
    // Which bars are held open is what is asked.
    boolean open = walked.asked().stream().anyMatch(a -> OF_OPEN.contains(a.key()));
    PlannedNumber bare =
        new PlannedNumber(
            found.label(),
            found.playing(),
            found.order(),
            Optional.empty(),
            asks,
            found.says(),
            found.total());
    Result best = new Result(Verdict.FAILED, label, says, 0, 0);
    for (Reading reading : read) {
      Result result = sameOrder(reading, open ? bare : found, asks, sure);
      best = result.verdict().compareTo(best.verdict()) < 0 ? result : best;
    }
    boolean alike = best.verdict().group() == Verdict.Group.AGREE;
    return alike ? new Result(Verdict.BOTH_ASK, label, says, best.bars(), best.facts()) : best;
  }

  private Result sameOrder(Reading walked, PlannedNumber found, boolean asks, boolean sure) {
    int bars = walked.order().size();
    String label = found.label();
    if (found.open().isPresent() && !walkedOpen(walked).equals(foundOpen(found))) {
      String says = "open: walker " + walkedOpen(walked) + ", plan " + foundOpen(found);
      return new Result(Verdict.OPEN, label, says, bars, 0);
    }
    int facts = 0;
    for (int k = 0; k < bars; k++) {
      Sounding right = walked.order().get(k);
      PlannedBar bar = found.order().get(k);
      OptionalInt pass = pass(right);
      if (pass.isPresent() && bar.pass().isPresent() && !pass.equals(bar.pass())) {
        String says = at(k, right) + ": pass " + pass + ", plan " + bar.pass();
        return new Result(Verdict.PASSES, label, says, bars, 0);
      }
      for (Map.Entry<Aspect, String> fact : bar.state().entrySet()) {
        Set<String> allowed = right.state().getOrDefault(fact.getKey(), Set.of(Aspect.ANY));
        boolean hand = hand(fact.getKey());
        if (allowed.contains(Aspect.ANY) || (hand && !sure)) {
          continue;
        }
        if (!allowed.contains(fact.getValue())) {
          String says =
              at(k, right)
                  + ": "
                  + fact.getKey()
                  + " is "
                  + new TreeSet<>(allowed)
                  + ", plan "
                  + fact.getValue();
          return new Result(Verdict.STATE, label, says, bars, facts);
        }
        facts += allowed.size() == 1 ? 1 : 0;
      }
    }
    Optional<String> total = new Totals(walked.order()).differs(found.total());
    if (total.isPresent()) {
      return new Result(Verdict.TOTALS, label, total.get(), bars, facts);
    }
    Verdict verdict = asks ? Verdict.AGREE_AND_PLAN_ASKS : Verdict.AGREE;
    return new Result(verdict, label, asks ? String.valueOf(found.says()) : "", bars, facts);
  }

  private static boolean hand(Aspect aspect) {
    return aspect == Aspect.INSTRUMENT || aspect == Aspect.BOW || aspect == Aspect.MUTE;
  }

  private static String at(int k, Sounding bar) {
    return "bar " + bar.name() + " (" + (k + 1) + " in the order, time " + bar.time() + ")";
  }

  private OptionalInt pass(Sounding bar) {
    if (bar.inserted() || plan.passes() == Passes.NOT_TOLD) {
      return OptionalInt.empty();
    }
    return OptionalInt.of(plan.passes() == Passes.OF_REPEAT ? bar.pass() : bar.time());
  }

  private static Set<String> walkedOpen(Reading walked) {
    return walked.open().stream()
        .map(o -> o.kind() + " " + o.first() + " to " + o.last())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Set<String> foundOpen(PlannedNumber found) {
    return found.open().orElse(List.of()).stream()
        .map(
            o ->
                o.kind()
                    + " "
                    + o.first()
                    + "/"
                    + o.firstOffset()
                    + " to "
                    + o.last()
                    + "/"
                    + o.lastOffset())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static List<String> keys(List<Sounding> order) {
    return order.stream()
        .map(s -> key(s.bar(), s.offset(), s.inserted() ? s.name() : "", s.cut()))
        .toList();
  }

  private static List<String> foundKeys(PlannedNumber found) {
    return found.order().stream()
        .map(
            b ->
                key(
                    b.bar(),
                    b.offset(),
                    b.inserted().orElse(""),
                    new Left(b.cutAtStart(), b.cutAtEnd(), b.cutInside())))
        .toList();
  }

  private static String key(String bar, int offset, String inserted, Left cut) {
    String place = offset == 0 ? bar : bar + "/" + offset;
    String name = inserted.isEmpty() ? place : "+" + inserted + "(" + bar + ")";
    boolean whole = cut.equals(Left.NOTHING);
    return whole ? name : name + "-" + cut.atStart() + "-" + cut.inside() + "-" + cut.atEnd();
  }

  private static String says(List<Ask> asked) {
    return asked.stream()
        .map(a -> a.key() + " at " + a.place() + ": " + a.why() + " " + a.readings())
        .collect(Collectors.joining("; "));
  }

  /** The two orders from a few bars before the first difference on. */
  private static String difference(List<String> right, List<String> found) {
    int at = 0;
    while (at < right.size() && at < found.size() && right.get(at).equals(found.get(at))) {
      at++;
    }
    List<String> lines = new ArrayList<>();
    lines.add("from bar " + (at + 1) + " of the order on");
    lines.add("  walker " + part(right, at));
    lines.add("  plan   " + part(found, at));
    return String.join("\n", lines) + "\n";
  }

  private static String part(List<String> order, int at) {
    int from = Math.min(order.size(), Math.max(0, at - 3));
    int to = Math.min(order.size(), at + 12);
    return (from > 0 ? "... " : "")
        + String.join(" ", order.subList(from, to))
        + (to < order.size() ? " ..." : "");
  }
}
