package org.barmap.sheet;

import java.io.IOException;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.plan.mark.PencilMark;

/** The marks to write, and those to erase, page by page: two lists, each with a box to tick. */
final class PencilPages {
  private PencilPages() {}

  /** Writes what is to be written; what stands in the book already is ticked. */
  static void write(Flow flow, List<PencilMark> marks, List<PencilMark> written, Names names)
      throws IOException {
    Set<String> there = written.stream().map(PencilPages::key).collect(Collectors.toSet());
    long done = marks.stream().filter(m -> there.contains(key(m))).count();
    flow.line(
        many(marks.size())
            + (done == 0 ? "." : ", " + done + " of them in the book already.")
            + " Tick each box when the mark is written.");
    list(flow, marks, there, names);
  }

  /** Writes what is to be erased. */
  static void erase(Flow flow, List<PencilMark> written, Names names) throws IOException {
    flow.line(
        written.isEmpty()
            ? "No mark was ticked as written, so there is none to erase."
            : many(written.size())
                + ", written for this show, also for changes that are gone. Tick each box when the"
                + " mark is erased, before the book goes back.");
    list(flow, written, Set.of(), names);
  }

  private static void list(Flow flow, List<PencilMark> marks, Set<String> ticked, Names names)
      throws IOException {
    int page = -1;
    for (PencilMark mark : marks) {
      if (mark.page() != page) {
        page = mark.page();
        flow.heading("Page " + page);
      }
      flow.tick(says(mark, names), ticked.contains(key(mark)));
    }
  }

  /** Returns "line 2, No. 7 bar 34: [ cut". */
  static String says(PencilMark mark, Names names) {
    String number = names.number(mark.number()).replaceAll("\\s{2,}.*", "");
    return "line "
        + mark.system()
        + ", "
        + (number.isEmpty() ? "" : number + " ")
        + "bar "
        + mark.where()
        + ":  "
        + mark.sign()
        + (mark.unsure().isEmpty() ? "" : "   (not checked)");
  }

  private static String many(int marks) {
    return marks + (marks == 1 ? " mark" : " marks");
  }

  /** Two marks of one kind at one bar are one. */
  private static String key(PencilMark mark) {
    return mark.bar() + "/" + mark.mark();
  }
}
