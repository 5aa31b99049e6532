package org.barmap.web.route;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.History;
import org.barmap.library.HistoryEntry;
import org.barmap.library.Job;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.map.BarMap;
import org.barmap.map.Origin;
import org.barmap.map.json.BarMapJson;
import org.barmap.work.JobView;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** What the browser gets to see. */
final class Views {

  private Views() {}

  /** A book. */
  record BookView(
      String id,
      String title,
      String part,
      int pages,
      int bars,
      int verifiedPages,
      int doubts,
      String state,
      Instant createdAt,
      long revision,
      Optional<JobView> job) {}

  /** A page. */
  record PageView(
      String id,
      int index,
      String source,
      int width,
      int height,
      String state,
      Optional<String> finding,
      Optional<Double> expectedWrong) {}

  /** A line of the history. */
  record EntryView(String id, Instant when, String who, String text, boolean undone) {

    static EntryView of(HistoryEntry e) {
      return new EntryView(e.id(), e.when(), e.who(), e.text(), e.undone());
    }
  }

  /** A history. */
  record HistoryView(List<EntryView> entries, int undo, int redo) {

    static HistoryView of(History history) {
      return new HistoryView(
          history.entries().stream().map(EntryView::of).toList(), history.undo(), history.redo());
    }
  }

  static BookView book(Library library, BookCard card) {
    Optional<Job> job =
        library
            .jobs()
            .latest(card.id())
            .filter(j -> j.state() == Job.State.WAITING || j.state() == Job.State.RUNNING);
    return new BookView(
        card.id(),
        card.title(),
        card.part(),
        card.pages(),
        card.bars(),
        card.verifiedPages(),
        card.doubts(),
        card.isVerified() ? "verified" : "draft",
        card.createdAt(),
        card.revision(),
        job.map(JobView::of));
  }

  static PageView page(PageCard card, Draft draft) {
    boolean verified = draft.settled().verifiedPages().contains(card.index());
    return new PageView(
        card.id(),
        card.index(),
        card.source(),
        card.width(),
        card.height(),
        verified ? "verified" : card.state().word(),
        card.finding().map(f -> withoutFile(f, card)),
        card.state() == PageState.READ
                && draft.map().bars().stream().anyMatch(b -> b.page() == card.index())
            ? Optional.of(expectedWrong(draft, card.index()))
            : Optional.empty());
  }

  /** The picture's name in the book's folder is nobody's business. */
  private static String withoutFile(String finding, PageCard card) {
    String file = card.picture() + ": ";
    return sentence(finding.startsWith(file) ? finding.substring(file.length()) : finding);
  }

  private static String sentence(String text) {
    return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  /** How many entries of a page are wrong, by what their confidence says; none once checked. */
  private static double expectedWrong(Draft draft, int page) {
    if (draft.settled().verifiedPages().contains(page)) {
      return 0;
    }
    double wrong =
        draft.map().bars().stream()
            .filter(b -> b.page() == page)
            .filter(b -> b.origin() == Origin.READ || b.origin() == Origin.INFERRED)
            .mapToDouble(b -> 1 - b.confidence())
            .sum();
    return Math.round(wrong * 10) / 10.0;
  }

  /** Returns the map with the ids of its pages, and the findings nobody has answered. */
  static ObjectNode map(Draft draft, List<PageCard> pages) {
    BarMap open = draft.map().withFindings(draft.open());
    ObjectNode tree = BarMapJson.mapper().valueToTree(open);
    for (JsonNode node : tree.path("pages")) {
      int index = node.path("index").asInt(0);
      pages.stream()
          .filter(p -> p.index() == index)
          .findFirst()
          .ifPresent(p -> ((ObjectNode) node).put("id", p.id()));
      ((ObjectNode) node).put("expectedWrong", expectedWrong(draft, index));
    }
    return tree;
  }
}
