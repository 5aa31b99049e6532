package org.barmap.exchange.region;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.barmap.map.StaffSystem;

/**
 * Where a book and its pages are served.
 *
 * @param book address of the book, without a slash at its end
 * @param title of the book; may be empty
 * @param part which chair's; may be empty
 * @param pages in their order, those with pictures and those without
 */
public record Served(String book, String title, String part, List<Leaf> pages) {

  /**
   * A page.
   *
   * @param id in addresses
   * @param index 1 for the first page
   * @param width of its picture, pixels
   * @param height of its picture, pixels
   * @param picture whether there is one
   * @param systems as the map has them
   */
  public record Leaf(
      String id, int index, int width, int height, boolean picture, List<StaffSystem> systems) {
    /** Takes a defensive copy. */
    public Leaf {
      systems = List.copyOf(systems);
    }

    /** Returns a line of it. */
    Optional<StaffSystem> system(int wanted) {
      return systems.stream().filter(s -> s.index() == wanted).findFirst();
    }

    /** Tells whether regions can lie on it. */
    public boolean hasRoom() {
      return width > 0 && height > 0;
    }
  }

  /** Takes a defensive copy. */
  public Served {
    pages = List.copyOf(pages);
  }

  /** Returns the page of an index. */
  public Optional<Leaf> page(int index) {
    return pages.stream().filter(p -> p.index() == index).findFirst();
  }

  /** Returns what the book is called, in one line. */
  public String name() {
    String both = part.isBlank() ? title : title + ", " + part;
    return both.isBlank() ? "A book without a title" : both;
  }

  String annotations() {
    return book + "/annotations";
  }

  String annotations(Leaf page, boolean canvas) {
    return annotations() + "/" + part(page.id()) + (canvas ? "?on=canvas" : "");
  }

  String image(Leaf page) {
    return book + "/pages/" + part(page.id()) + "/image";
  }

  String manifest() {
    return book + "/iiif/manifest";
  }

  String canvas(Leaf page) {
    return manifest() + "/canvas/" + part(page.id());
  }

  String service(Leaf page) {
    return book + "/iiif/" + part(page.id());
  }

  /** Returns where a bar is told about. */
  public String bar(String address) {
    return book + "/bars/" + part(address);
  }

  private static String part(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20").replace("%3A", ":");
  }
}
