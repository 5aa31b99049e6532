package org.barmap.sheet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.barmap.exchange.Errata;
import org.barmap.exchange.Errata.Misprint;
import org.barmap.map.BarMap;
import org.barmap.plan.Plan;

/** Misprints, to be sent to whoever hired the book out. */
final class ErrataPages {
  static final String CAUTION =
      "Correcting a hired book is for the hire agreement to allow: ask the hirer before anything is"
          + " written in to stay.";

  private ErrataPages() {}

  static void write(Flow flow, BarMap map, Plan plan) throws IOException {
    List<Misprint> misprints = Errata.of(map, plan.notes());
    if (misprints.isEmpty()) {
      flow.line("No misprint has been noted.");
      return;
    }
    flow.line(
        map.book().title()
            + ", "
            + map.book().part()
            + ": "
            + (misprints.size() == 1 ? "1 misprint" : misprints.size() + " misprints")
            + ", as a player noted them. Pages and lines are counted in the book as photographed.");
    String before = "\u0000";
    for (Misprint one : misprints) {
      if (!one.number().equals(before)) {
        before = one.number();
        String title = (one.number() + "   " + one.title()).strip();
        flow.heading(title.isEmpty() ? "The book" : title);
      }
      List<String> where = new ArrayList<>();
      one.page().ifPresent(p -> where.add("page " + p));
      one.system().ifPresent(s -> where.add("line " + s));
      one.day().ifPresent(d -> where.add("noted " + d));
      flow.keep(2);
      flow.space(4);
      flow.pair(
          one.bar().map(b -> "Bar " + b).orElse("No bar named"), String.join(", ", where), true);
      flow.indented(one.text(), 18);
    }
  }
}
