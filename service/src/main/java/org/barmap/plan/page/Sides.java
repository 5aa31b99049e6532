package org.barmap.plan.page;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Page;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.page.Folios.Printed;

/**
 * On which side every page of a book lies, and how many leaves lie between two pages.
 *
 * <p>In this order: what the player says of the first page; pictures that show two pages, which are
 * never torn apart; printed page numbers, odd ones on the right. One of them is enough, the pages
 * of a book alternate; a jump of the printed numbers is a jump here too. Where there is none of
 * them sides are unknown, the first page is taken as a right one, and that is asked.
 */
public final class Sides {
  private final Map<Integer, PagePlace> places = new TreeMap<>();
  private final List<PlanFinding> findings;

  private final Set<Integer> gone;

  private Sides(PageFindings found) {
    this.findings = List.copyOf(found.found());
    this.gone = Set.copyOf(found.gone());
  }

  /**
   * Lays out a book.
   *
   * @param first what the player says of the first page
   * @param leaves pages that are not bound as the others, by page index
   */
  public static Sides of(BarMap map, Optional<FirstPage> first, Map<Integer, Leaf> leaves) {
    return of(map.pages(), map.bars(), first, leaves);
  }

  private static Sides of(
      List<Page> pages, List<Bar> bars, Optional<FirstPage> first, Map<Integer, Leaf> leaves) {
    Map<Integer, Page> known = new TreeMap<>();
    pages.forEach(p -> known.putIfAbsent(p.index(), p));
    TreeSet<Integer> indices = new TreeSet<>(known.keySet());
    bars.forEach(b -> indices.add(b.page()));
    List<Printed> printed = printed(indices, known, leaves);
    List<Printed> believed = Folios.believed(printed);
    List<Laying.Given> given = given(indices, known, leaves, believed);
    boolean single = first.filter(f -> f == FirstPage.SINGLE_SHEETS).isPresent();
    boolean openings = given.stream().anyMatch(Laying.Given::opens);
    boolean sure = !single && (first.isPresent() || openings || !believed.isEmpty());
    Laying laying = laid(given, first, openings);
    PageFindings found = new PageFindings(printed, believed, copied(indices, known, leaves));
    if (!single) {
      found.pages(given, laying, first);
    }
    if (first.isEmpty() && !sure && bars.stream().map(Bar::page).distinct().count() > 1) {
      found.ask();
    }
    Sides sides = new Sides(found);
    for (int i = 0; i < given.size(); i++) {
      Laying.Given page = given.get(i);
      int place = laying.places().get(i);
      boolean alone = single && page.leaf() != Leaf.LOOSE;
      sides.places.put(
          page.index(),
          new PagePlace(
              page.index(),
              !sure || page.leaf() == Leaf.LOOSE
                  ? Side.UNKNOWN
                  : place % 2 == 0 ? Side.LEFT : Side.RIGHT,
              alone ? page.index() : Math.floorDiv(place, 2),
              Optional.ofNullable(known.get(page.index())).flatMap(Page::folio),
              page.leaf()));
    }
    return sides;
  }

  /** Returns the printed numbers of bound pages, each with its place among these. */
  private static List<Printed> printed(
      TreeSet<Integer> indices, Map<Integer, Page> known, Map<Integer, Leaf> leaves) {
    List<Printed> printed = new ArrayList<>();
    int place = 0;
    int before = 0;
    for (int index : indices) {
      if (leaf(leaves, index) == Leaf.BOUND) {
        place += before == 0 ? 1 : Math.max(1, index - before);
        int at = place;
        Optional.ofNullable(known.get(index))
            .flatMap(Page::folio)
            .ifPresent(f -> printed.add(new Printed(at, index, f)));
      }
      before = index;
    }
    return printed;
  }

  /** Returns the printed numbers of loose copies. */
  private static Set<Integer> copied(
      TreeSet<Integer> indices, Map<Integer, Page> known, Map<Integer, Leaf> leaves) {
    Set<Integer> copied = new HashSet<>();
    for (int index : indices) {
      if (leaf(leaves, index) == Leaf.LOOSE) {
        Optional.ofNullable(known.get(index)).flatMap(Page::folio).ifPresent(copied::add);
      }
    }
    return copied;
  }

  private static List<Laying.Given> given(
      TreeSet<Integer> indices,
      Map<Integer, Page> known,
      Map<Integer, Leaf> leaves,
      List<Printed> believed) {
    Map<Integer, Printed> folios = new TreeMap<>();
    believed.forEach(p -> folios.put(p.page(), p));
    List<Integer> order = List.copyOf(indices);
    List<Laying.Given> given = new ArrayList<>();
    boolean faces = false;
    for (int i = 0; i < order.size(); i++) {
      int index = order.get(i);
      boolean opens =
          !faces && i + 1 < order.size() && pair(known, leaves, index, order.get(i + 1));
      given.add(
          new Laying.Given(
              index, leaf(leaves, index), Optional.ofNullable(folios.get(index)), opens, faces));
      faces = opens;
    }
    return given;
  }

  private static Leaf leaf(Map<Integer, Leaf> leaves, int index) {
    return leaves.getOrDefault(index, Leaf.BOUND);
  }

  private static boolean pair(
      Map<Integer, Page> known, Map<Integer, Leaf> leaves, int index, int next) {
    Page left = known.get(index);
    Page right = known.get(next);
    return left != null
        && right != null
        && leaf(leaves, index) == Leaf.BOUND
        && leaf(leaves, next) == Leaf.BOUND
        && SamePicture.holds(left, right);
  }

  private static Laying laid(
      List<Laying.Given> pages, Optional<FirstPage> first, boolean openings) {
    if (first.isPresent()) {
      return Laying.of(pages, first.get() == FirstPage.LEFT ? 0 : 1);
    }
    Laying left = Laying.of(pages, 0);
    Laying right = Laying.of(pages, 1);
    if (openings && left.misfits() != right.misfits()) {
      return left.misfits() < right.misfits() ? left : right;
    }
    for (int i = 0; i < pages.size(); i++) {
      if (pages.get(i).folio().isPresent()) {
        boolean odd = pages.get(i).folio().get().folio() % 2 != 0;
        return odd == (right.places().get(i) % 2 != 0) ? right : left;
      }
    }
    return right;
  }

  /** Returns where a page lies. */
  public PagePlace place(int page) {
    PagePlace found = places.get(page);
    return found == null
        ? new PagePlace(page, Side.UNKNOWN, page / 2, Optional.empty(), Leaf.BOUND)
        : found;
  }

  /** Returns on which side a page lies. */
  public Side side(int page) {
    return place(page).side();
  }

  /** Tells whether a page must be turned to get from one to the other. */
  public boolean turned(int from, int to) {
    return leaves(from, to) > 0;
  }

  /**
   * Returns how many leaves are turned to get from one page to the other; a loose copy is at hand.
   */
  public int leaves(int from, int to) {
    return place(to).leaf() == Leaf.LOOSE
        ? 0
        : Math.abs(place(from).opening() - place(to).opening());
  }

  /** Tells whether sides were told or read; else the plan goes by an assumption. */
  public boolean known() {
    return places.values().stream().anyMatch(p -> p.side() != Side.UNKNOWN);
  }

  /** Returns where every page lies, in the order of the book. */
  public List<PagePlace> places() {
    return List.copyOf(places.values());
  }

  /** Returns the pages right behind which pages of the book were not photographed. */
  public Set<Integer> gone() {
    return gone;
  }

  /** Returns what is asked, missing or contradictory. */
  public List<PlanFinding> findings() {
    return findings;
  }
}
