package org.barmap.sheet;

import java.io.IOException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Key;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;

/** Strips of added bars to print, cut out and lay over the book: empty staves to write into. */
final class StripPages {
  /** Staves of parts are 7 mm high at the least (MOLA guidelines, known second-hand). */
  private static final double LEAST_STAFF = 7;

  /** A staff higher than this is no player's part. */
  private static final double MOST_STAFF = 10;

  /** Width of a part's page: paper of 9.5 in (MOLA guidelines, known second-hand). */
  private static final double PAGE_WIDTH = 241;

  private final Flow flow;
  private final Names names;
  private final Map<Integer, Page> pages = new HashMap<>();
  private int strips;

  private StripPages(Flow flow, BarMap map, Names names) {
    this.flow = flow;
    this.names = names;
    map.pages().forEach(p -> pages.put(p.index(), p));
  }

  static void write(Flow flow, BarMap map, Plan plan, Names names) throws IOException {
    StripPages sheet = new StripPages(flow, map, names);
    flow.line(
        "Print at 100 %, write the notes in, cut along the broken lines and lay the strip over the"
            + " book with tape that comes off again.");
    for (NumberPlan number : plan.numbers()) {
      Set<List<String>> seen = new HashSet<>();
      for (NumberPlan.Entry entry : number.order()) {
        if (entry.added().isPresent() && seen.add(entry.added().get().names())) {
          sheet.strip(number, entry, entry.added().get());
        }
      }
    }
    if (sheet.strips == 0) {
      flow.line("No bars are added to the book.");
    }
  }

  private void strip(NumberPlan number, NumberPlan.Entry entry, NumberPlan.Added added)
      throws IOException {
    strips++;
    Optional<Bar> host = names.entry(entry.bar());
    String where = host.map(b -> "page " + b.page() + ", line " + b.system() + ", ").orElse("");
    String no = names.number(number.label());
    flow.heading((no.isEmpty() ? "" : no + ": ") + says(entry, added));
    flow.line(where + "at bar " + names.bar(entry.bar()));
    double staff = host.map(this::staff).orElse(LEAST_STAFF);
    String meter =
        added
            .meter()
            .or(() -> host.flatMap(Bar::meter).map(m -> m.beats() + "/" + m.unit()))
            .orElse("");
    String key = host.flatMap(Bar::key).map(Key::says).orElse("");
    boolean rest = added.content().filter("rest"::equals).isPresent();
    new StripDrawing(flow, staff, meter, key).draw(added.names(), rest);
  }

  private static String says(NumberPlan.Entry entry, NumberPlan.Added added) {
    int many = added.names().size();
    String kind = added.content().map(c -> c.equals("rest") ? " rest" : "").orElse("");
    return Says.bars(many)
        + added.meter().map(m -> " of " + m).orElse("")
        + kind
        + ", "
        + entry.inserted().orElse("");
  }

  /** Returns the height of the staff on paper in millimetres, as far as the picture tells it. */
  private double staff(Bar bar) {
    Page page = pages.get(bar.page());
    if (page == null || page.width() <= 0) {
      return LEAST_STAFF;
    }
    Outline at = bar.outline();
    double high =
        Math.hypot(at.bottomLeft().x() - at.topLeft().x(), at.bottomLeft().y() - at.topLeft().y());
    double millimetres = high / page.width() * PAGE_WIDTH;
    return millimetres < LEAST_STAFF || millimetres > MOST_STAFF ? LEAST_STAFF : millimetres;
  }
}
