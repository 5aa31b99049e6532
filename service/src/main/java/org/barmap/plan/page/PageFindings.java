package org.barmap.plan.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.page.Folios.Printed;

/** Says what is missing, twice, contradictory or asked about the pages of a book. */
final class PageFindings {
  /** As many as a book may have. */
  private static final int MOST_PAGES = 5000;

  private final List<Printed> printed;
  private final List<Printed> believed;
  private final Set<Integer> copied;
  private final Set<Integer> behind = new TreeSet<>();
  private final List<PlanFinding> found = new ArrayList<>();

  /**
   * Looks at what was read.
   *
   * @param copied printed numbers of pages that are there as a loose copy
   */
  PageFindings(List<Printed> printed, List<Printed> believed, Set<Integer> copied) {
    this.printed = printed;
    this.believed = believed;
    this.copied = copied;
  }

  List<PlanFinding> found() {
    return found;
  }

  /** Returns the pages right behind which some are missing. */
  Set<Integer> gone() {
    return behind;
  }

  void pages(List<Laying.Given> pages, Laying laying, Optional<FirstPage> first) {
    missing();
    doubtful();
    for (int page : first.isPresent() ? laying.shifted() : List.<Integer>of()) {
      add(
          Severity.DOUBT,
          "first-page-picture",
          "Pages "
              + page
              + " and "
              + (page + 1)
              + " are one picture, so page "
              + page
              + " lies on the left; that does not follow from what was said of the first page, unless"
              + " a page before it is missing.");
    }
    if (first.isEmpty() && laying.misfits() > 0) {
      for (int page : laying.shifted()) {
        add(
            Severity.INFO,
            "page-between",
            "Before page " + page + " a page of the book was not photographed, or is blank.");
      }
    }
    for (Laying.Impossible leaf : laying.impossible()) {
      add(
          Severity.DOUBT,
          "leaf-place",
          "The leaf laid in at page "
              + leaf.page()
              + " comes after page "
              + leaf.before()
              + ", a right-hand page: there it would lie inside another leaf. Say where it lies, or"
              + " put the pages in the order they are turned.");
    }
    print(pages, laying, first);
  }

  /** What the player said goes before the print, but not in silence. */
  private void print(List<Laying.Given> pages, Laying laying, Optional<FirstPage> first) {
    for (int i = 0; i < pages.size() && first.isPresent(); i++) {
      Optional<Printed> folio = pages.get(i).folio();
      if (folio.isPresent()) {
        boolean right = laying.places().get(i) % 2 != 0;
        if (right != (folio.get().folio() % 2 != 0)) {
          add(
              Severity.INFO,
              "first-page-print",
              "Page "
                  + pages.get(i).index()
                  + " has the printed number "
                  + folio.get().folio()
                  + ", which usually lies on the "
                  + (right ? "left" : "right")
                  + "; as the first page was said to lie, it lies on the "
                  + (right ? "right." : "left."));
        }
        return;
      }
    }
  }

  private void missing() {
    for (int i = 1; i < believed.size(); i++) {
      Printed before = believed.get(i - 1);
      Printed after = believed.get(i);
      List<Integer> between =
          IntStream.range(before.folio() + 1, after.folio())
              .limit(after.ahead() - before.ahead() == 0 ? 0 : MOST_PAGES)
              .filter(f -> !copied.contains(f))
              .boxed()
              .toList();
      int gone = between.size() - (after.place() - before.place() - 1);
      if (after.ahead() > before.ahead() && gone > 0) {
        boolean next = after.place() == before.place() + 1;
        if (next) {
          behind.add(before.page());
        }
        String which = next ? numbers(between) : gone + " of the printed pages";
        add(
            Severity.DOUBT,
            "pages-missing",
            which
                + (gone == 1 && next ? " is" : " are")
                + " missing between page "
                + before.page()
                + " (printed "
                + before.folio()
                + ") and page "
                + after.page()
                + " (printed "
                + after.folio()
                + "). If nothing but blank paper is left out, all is well.");
      }
    }
  }

  private static String numbers(List<Integer> folios) {
    int from = folios.get(0);
    int to = folios.get(folios.size() - 1);
    if (from == to) {
      return "Printed page " + from;
    }
    return "Printed pages " + from + (folios.size() == 2 ? " and " : " to ") + to;
  }

  private void doubtful() {
    for (Printed one : printed) {
      if (believed.contains(one)) {
        continue;
      }
      Optional<Printed> twin =
          printed.stream()
              .filter(o -> o.folio() == one.folio() && o.page() != one.page())
              .findFirst();
      String said = "page " + one.page() + " says " + one.folio();
      add(
          Severity.DOUBT,
          "page-number",
          twin.isPresent()
              ? "The printed page number "
                  + one.folio()
                  + " is there twice, on pages "
                  + Math.min(one.page(), twin.get().page())
                  + " and "
                  + Math.max(one.page(), twin.get().page())
                  + ": the same page taken twice, or a number read wrong."
              : "The printed page numbers don't follow: "
                  + said
                  + ", which doesn't fit those around it. It may be read wrong, or the pages are not"
                  + " in order.");
    }
  }

  void ask() {
    found.add(
        finding(
                Severity.DOUBT,
                "first-page",
                "Nothing says on which side page 1 lies: no printed page number was read, and no"
                    + " picture shows two pages. The turns are planned with page 1 on the right;"
                    + " say how it lies.")
            .asking(
                new Question(
                    Question.Topic.SIDE,
                    Optional.of("page 1"),
                    List.of(Question.Reading.of("left"), Question.Reading.of("right")),
                    1)));
  }

  private void add(Severity severity, String code, String text) {
    found.add(finding(severity, code, text));
  }

  private static PlanFinding finding(Severity severity, String code, String text) {
    return new PlanFinding(
        severity, Optional.empty(), code, text, Optional.empty(), List.of(), Optional.empty());
  }
}
