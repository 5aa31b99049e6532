package org.barmap.web.share;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What a key is for, as a list of what may be asked with it; everything else is refused. */
public enum Role {
  /**
   * A phone that photographs pages: adds pages to the book, puts one in place, sees their state.
   */
  PHONE("/phone.html", List.of("GET .", "GET ./events", "POST ./pages", "POST ./pages/*/retake")),
  /**
   * The desk of another player of the section: reads and corrects the book and its changes. Takes
   * no page and no book away, gives no pictures in one file, lets nobody else in.
   */
  DESK(
      "/book.html",
      List.of(
          "GET .",
          "GET ./(events|map|doubts|history|second|marks|roadmap|settings)",
          "GET ./(plan|plan/since|changes|changes/history)",
          "GET ./pages/*/(image|crop)",
          "GET ./(export|sheets)/*",
          "POST ./(corrections|corrections/check|undo|redo|marks)",
          "POST ./changes",
          "POST ./changes/(check|understand|read|open|undo|redo)",
          "PATCH ./changes/*",
          "DELETE ./changes/*",
          "PUT ./settings",
          "POST ./pages",
          "POST ./pages/*/(again|retake|line)",
          "POST ./here"));

  /** The files every page needs; a name never begins with a dot. */
  private static final String FILES = "GET (/favicon\\.svg|/(js|css)(/\\w[\\w-]*)+\\.(js|css))";

  private static final String NAME = "[\\w-][\\w.-]*";

  private final String page;
  private final List<String> routes;

  Role(String page, List<String> routes) {
    this.page = page;
    this.routes = routes;
  }

  /** Returns the address of the page it begins at. */
  public String page() {
    return page;
  }

  /** Returns its word in addresses and answers: phone, desk. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }

  /** Returns the role of a word. */
  public static Optional<Role> of(String word) {
    return Arrays.stream(values()).filter(r -> r.word().equals(word)).findFirst();
  }

  /** Returns all that may be asked, about one book, as one pattern of method, blank and address. */
  Pattern allowed(String book) {
    String about = Pattern.quote("/api/books/" + book);
    Stream<String> ofBook =
        routes.stream().map(r -> r.replace("*", NAME).replace(" .", " " + about));
    String pages =
        this == PHONE ? "GET /phone\\.html" : "GET /(book|desk|road|turns|practice|stand)\\.html";
    return Pattern.compile(
        Stream.concat(ofBook, Stream.of(pages, FILES))
            .collect(Collectors.joining(")|(?:", "(?:", ")")));
  }
}
