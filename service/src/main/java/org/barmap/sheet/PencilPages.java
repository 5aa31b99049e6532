package org.barmap.sheet;

import java.io.IOException;
import org.barmap.plan.Plan;
import org.barmap.plan.mark.PencilMark;

/** The marks to write, page by page; the same boxes are ticked when they are erased. */
final class PencilPages {
  private PencilPages() {}

  static void write(Flow flow, Plan plan, Names names) throws IOException {
    flow.line(
        plan.pencil().size()
            + (plan.pencil().size() == 1 ? " mark." : " marks.")
            + " Tick each box when the mark is erased, before the book goes back.");
    int page = -1;
    for (PencilMark mark : plan.pencil()) {
      if (mark.page() != page) {
        page = mark.page();
        flow.heading("Page " + page);
      }
      String number = names.number(mark.number()).replaceAll("\\s{2,}.*", "");
      flow.tick(
          "line "
              + mark.system()
              + ", "
              + (number.isEmpty() ? "" : number + " ")
              + "bar "
              + mark.where()
              + ":  "
              + mark.sign()
              + (mark.unsure().isEmpty() ? "" : "   (not checked)"));
    }
  }
}
