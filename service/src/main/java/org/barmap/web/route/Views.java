package org.barmap.web.route;

import com.fasterxml.jackson.annotation.JsonInclude;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.History;
import org.barmap.library.HistoryEntry;
import org.barmap.library.Job;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Origin;
import org.barmap.map.Page;
import org.barmap.map.json.BarMapJson;
import org.barmap.pack.PackOpener;
import org.barmap.work.JobView;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
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

  /** Lets the browser drop the pictures that it keeps by itself: what was removed is gone there. */
  static void forgotten(Context ctx) {
    ctx.header("Clear-Site-Data", "\"cache\"");
  }

  /** A page; {@code score}: it came from a score file and never had a picture. */
  record PageView(
      String id,
      int index,
      String source,
      int width,
      int height,
      String state,
      Optional<String> finding,
      Optional<Double> expectedWrong,
      @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean score) {}

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

  static List<PageView> pages(List<PageCard> cards, Draft draft) {
    Map<Integer, Double> wrong = expectedWrong(draft);
    return cards.stream().map(c -> page(c, draft, wrong)).toList();
  }

  private static PageView page(PageCard card, Draft draft, Map<Integer, Double> wrong) {
    boolean verified = draft.settled().verifiedPages().contains(card.index());
    boolean score = card.finding().filter(PackOpener.FROM_SCORE::equals).isPresent();
    PageState state = score ? PageState.READ : card.state();
    return new PageView(
        card.id(),
        card.index(),
        card.source(),
        card.width(),
        card.height(),
        verified ? "verified" : state.word(),
        card.finding().filter(f -> !score).map(f -> withoutFile(f, card)),
        state == PageState.READ ? Optional.ofNullable(wrong.get(card.index())) : Optional.empty(),
        score);
  }

  /** The picture's name in the book's folder is nobody's business. */
  private static String withoutFile(String finding, PageCard card) {
    String file = card.picture() + ": ";
    return sentence(finding.startsWith(file) ? finding.substring(file.length()) : finding);
  }

  private static String sentence(String text) {
    return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  /**
   * How many entries of a page are wrong, by what their confidence says; none once checked. Of
   * every page with entries, by its index.
   */
  private static Map<Integer, Double> expectedWrong(Draft draft) {
    Map<Integer, Double> wrong = new HashMap<>();
    for (Bar b : draft.map().bars()) {
      boolean open = b.origin() == Origin.READ || b.origin() == Origin.INFERRED;
      boolean checked = draft.settled().verifiedPages().contains(b.page());
      wrong.merge(b.page(), open && !checked ? 1 - b.confidence() : 0, Double::sum);
    }
    wrong.replaceAll((page, sum) -> Math.round(sum * 10) / 10.0);
    return wrong;
  }

  /** Returns the map with the ids of its pages, and the findings nobody has answered. */
  static ObjectNode map(Draft draft, List<PageCard> pages) {
    return tree(draft, pages, draft.map().withFindings(draft.open()));
  }

  /**
   * Returns the map with lines and bars of some pages only, and without findings; where numbers
   * begin and end is told by page as well.
   */
  static ObjectNode mapOf(Draft draft, List<PageCard> pages, Set<Integer> wanted) {
    BarMap map = draft.map();
    List<Page> some =
        map.pages().stream()
            .map(
                p ->
                    wanted.contains(p.index()) ? p : p.withSystems(List.of()).withByHand(List.of()))
            .toList();
    List<Bar> bars = map.bars().stream().filter(b -> wanted.contains(b.page())).toList();
    BarMap part = new BarMap(map.format(), map.book(), some, map.numbers(), bars, List.of());
    ObjectNode tree = tree(draft, pages, part);
    Map<String, Integer> places = new HashMap<>();
    map.bars().forEach(b -> places.put(b.id(), b.page()));
    for (JsonNode node : tree.path("numbers")) {
      for (String end : List.of("first", "last")) {
        Optional.ofNullable(places.get(node.path(end + "Bar").asString("")))
            .ifPresent(page -> ((ObjectNode) node).put(end + "Page", page));
      }
    }
    ArrayNode here = tree.putArray("here");
    wanted.stream().sorted().forEach(here::add);
    return tree;
  }

  /** Returns the pages on which two drafts of one book differ. */
  static Set<Integer> changed(Draft before, Draft after) {
    Set<Integer> changed = new HashSet<>();
    Map<Integer, List<Bar>> old =
        before.map().bars().stream().collect(Collectors.groupingBy(Bar::page));
    Map<Integer, List<Bar>> now =
        after.map().bars().stream().collect(Collectors.groupingBy(Bar::page));
    Map<Integer, Page> was =
        before.map().pages().stream().collect(Collectors.toMap(Page::index, p -> p));
    for (Page page : after.map().pages()) {
      int index = page.index();
      boolean same =
          old.getOrDefault(index, List.of()).equals(now.getOrDefault(index, List.of()))
              && page.equals(was.get(index));
      if (!same) {
        changed.add(index);
      }
    }
    return changed;
  }

  private static ObjectNode tree(Draft draft, List<PageCard> pages, BarMap map) {
    ObjectNode tree = BarMapJson.mapper().valueToTree(map);
    Map<Integer, Double> wrong = expectedWrong(draft);
    Map<Integer, String> ids = new HashMap<>();
    pages.forEach(p -> ids.putIfAbsent(p.index(), p.id()));
    for (JsonNode node : tree.path("pages")) {
      int index = node.path("index").asInt(0);
      ObjectNode page = (ObjectNode) node;
      Optional.ofNullable(ids.get(index)).ifPresent(id -> page.put("id", id));
      page.put("expectedWrong", wrong.getOrDefault(index, 0.0));
    }
    return tree;
  }
}
