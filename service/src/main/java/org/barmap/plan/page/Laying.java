package org.barmap.plan.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.page.Folios.Printed;

/**
 * Lays the pages of a book one after the other into places: even places are left, odd ones right,
 * two of them are an opening. Where the first page comes to lie is given; what then doesn't fit is
 * counted.
 */
final class Laying {
  /**
   * A page as it is given.
   *
   * @param index in the map
   * @param folio printed and believed
   * @param opens it is the first of two pages of one picture
   * @param faces it is the second of them
   */
  record Given(int index, Leaf leaf, Optional<Printed> folio, boolean opens, boolean faces) {}

  /** An inserted leaf between the two sides of another one, by the pages before and after it. */
  record Impossible(int before, int page) {}

  private final List<Integer> places = new ArrayList<>();
  private final List<Integer> shifted = new ArrayList<>();
  private final List<Impossible> impossible = new ArrayList<>();
  private Optional<Given> bound = Optional.empty();
  private Optional<Printed> anchor = Optional.empty();
  private int anchorPlace;
  private int boundPlace;
  private int last;
  private int laidIn;
  private boolean onFront;

  /**
   * Lays pages.
   *
   * @param first place of page 1, also where it isn't among them
   */
  static Laying of(List<Given> pages, int first) {
    Laying laying = new Laying();
    laying.last = first - 1 + (pages.isEmpty() ? 0 : pages.get(0).index() - 1);
    for (int i = 0; i < pages.size(); i++) {
      Given page = pages.get(i);
      int step = i == 0 ? 1 : page.index() - pages.get(i - 1).index();
      laying.places.add(
          switch (page.leaf()) {
            case LOOSE -> Math.max(laying.last, first);
            case INSERTED -> laying.inserted(page);
            case BOUND -> laying.bound(page, step);
          });
    }
    return laying;
  }

  /** Returns the place of each page. */
  List<Integer> places() {
    return places;
  }

  /** Returns pages that are the first of a picture, but would have come to lie on the right. */
  List<Integer> shifted() {
    return shifted;
  }

  /** Returns leaves that can't lie where they come. */
  List<Impossible> impossible() {
    return impossible;
  }

  /** Returns how much didn't fit. */
  int misfits() {
    return shifted.size() + impossible.size();
  }

  /** An inserted leaf has its front on the right, facing the page before it. */
  private int inserted(Given page) {
    if (onFront) {
      onFront = false;
      last++;
      return last;
    }
    if (bound.isPresent() && last % 2 != 0 && laidIn == 0) {
      impossible.add(new Impossible(bound.get().index(), page.index()));
    }
    laidIn++;
    onFront = true;
    last += last % 2 == 0 ? 1 : 2;
    return last;
  }

  private int bound(Given page, int step) {
    int place;
    if (page.faces()) {
      place = last + 1;
    } else if (bound.isEmpty()) {
      place = last + 1 + (laidIn > 0 && last % 2 != 0 && onFront ? 1 : 0);
    } else {
      int leaves = 2 * laidIn;
      Optional<Integer> printed =
          page.folio().flatMap(f -> anchor.map(a -> anchorPlace + f.folio() - a.folio()));
      place = leaves + printed.orElse(boundPlace + Math.max(1, step));
      while (place <= last) {
        place += 2;
      }
    }
    if (page.opens() && place % 2 != 0) {
      shifted.add(page.index());
      place++;
    }
    anchorPlace += 2 * laidIn;
    if (page.folio().isPresent()) {
      anchor = page.folio();
      anchorPlace = place;
    }
    bound = Optional.of(page);
    boundPlace = place;
    last = place;
    laidIn = 0;
    onFront = false;
    return place;
  }
}
