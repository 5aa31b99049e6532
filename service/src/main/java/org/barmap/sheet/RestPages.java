package org.barmap.sheet;

import java.io.IOException;
import org.barmap.plan.Plan;
import org.barmap.plan.rest.LongRest;

/** The rest sheet: long rests, what stands inside them, how to count. */
final class RestPages {
  private RestPages() {}

  /** A count that is not the printed one says so, or a player trusts the numeral. */
  private static String printed(LongRest rest, Names names) {
    int written = names.written(rest.first(), rest.last());
    return written == rest.bars() || written == 0
        ? ""
        : " The book has " + Says.bars(written) + " there.";
  }

  static void write(Flow flow, Plan plan, Names names) throws IOException {
    String number = "\u0000";
    for (LongRest rest : plan.rests()) {
      if (!rest.number().equals(number)) {
        number = rest.number();
        flow.heading(names.number(number));
      }
      flow.keep(3);
      String times = rest.passes().size() > 1 ? ", comes " + rest.passes().size() + " times" : "";
      flow.pair(
          names.range(rest.first(), rest.last())
              + names.theirs(rest.first(), rest.last()).map(b -> " [" + b + "]").orElse("")
              + times,
          Says.bars(rest.bars()) + ", p. " + rest.page(),
          true);
      flow.indented(rest.text() + printed(rest, names), 18);
      if (!rest.unsure().isEmpty()) {
        flow.indented(Says.unsure(rest.unsure()), 18);
      }
      if (rest.entrance().isPresent()) {
        String theirs = names.theirFirst(rest.entrance().get()).map(b -> " [" + b + "]").orElse("");
        flow.indented("In at bar " + names.bar(rest.entrance().get()) + theirs + ".", 18);
      }
    }
    if (plan.rests().isEmpty()) {
      flow.line("No rest of " + Says.bars(plan.settings().longRestBars()) + " or more.");
    }
  }
}
