package org.barmap.web.access;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What a key of one book is for, as a list of what may be asked with it; everything else is
 * refused, a route that nobody put here too.
 */
public enum Role {
  /**
   * A phone that photographs pages: adds pages to the book, puts one in place, sees their state.
   */
  PHONE("/phone.html", List.of("GET .", "GET ./events", "POST ./pages", "POST ./pages/{p}/retake")),
  /** Reads the book, its plan and its sheets, and asks what something would change. */
  READER("/book.html", Rules.READ),
  /**
   * The desk of another player of the section: reads and corrects the book and its changes. Takes
   * no page and no book away, gives no pictures in one file, lets nobody else in.
   */
  CORRECTOR("/book.html", Rules.CORRECT),
  /**
   * Everything about this book, letting others in and putting it into the bin too; but no web hook,
   * which would go on telling after the link has ended.
   */
  OWNER("/book.html", List.of());

  /** The lists; an enum's own constants can't stand before its first one. */
  private static final class Rules {
    private static final List<String> READ =
        List.of(
            "GET .",
            "GET ./events",
            "GET ./map",
            "GET ./doubts",
            "GET ./history",
            "GET ./editions",
            "GET ./editions/{n}",
            "GET ./editions/{n}/changes",
            "GET ./second",
            "GET ./marks",
            "GET ./roadmap",
            "GET ./settings",
            "GET ./plan",
            "GET ./plan/since",
            "GET ./changes",
            "GET ./changes/history",
            "GET ./pages/{p}/image",
            "GET ./pages/{p}/crop",
            "GET ./align",
            "GET ./annotations",
            "GET ./annotations/{p}",
            "GET ./bars/{at}",
            "GET ./bars/{at}/image",
            "GET ./export/{form}",
            "GET ./sheets/{sheet}",
            "POST ./corrections/check",
            "POST ./changes/check",
            "POST ./changes/understand",
            "POST ./changes/read",
            "POST ./here");

    private static final List<String> CORRECT =
        Stream.concat(
                READ.stream(),
                Stream.of(
                    "POST ./corrections",
                    "POST ./undo",
                    "DELETE ./edits/{e}",
                    "POST ./editions",
                    "POST ./redo",
                    "POST ./marks",
                    "POST ./changes",
                    "POST ./changes/open",
                    "POST ./changes/undo",
                    "POST ./changes/redo",
                    "PATCH ./changes/{c}",
                    "DELETE ./changes/{c}",
                    "PUT ./settings",
                    "POST ./pages",
                    "POST ./pages/skip",
                    "POST ./pages/{p}/again",
                    "POST ./pages/{p}/retake",
                    "POST ./pages/{p}/line"))
            .toList();
  }

  /** The address of a book, as routes are written. */
  private static final String BOOK = "/api/books/{b}";

  private static final String HOOKS = BOOK + "/hooks";

  /** The shelf and the figures of the service are of no one book. */
  private static final Set<String> NOT_OF_A_BOOK = Set.of("/", "/index.html", "/metrics");

  private final String page;
  private final Set<String> routes;

  Role(String page, List<String> routes) {
    this.page = page;
    this.routes =
        routes.stream().map(r -> r.replace(" .", " /api/books/{b}")).collect(Collectors.toSet());
  }

  /** Returns the address of the page it begins at. */
  public String page() {
    return page;
  }

  /** Returns its word in addresses and answers: phone, reader, corrector, owner. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Returns the role of a word. */
  public static Optional<Role> of(String word) {
    return Arrays.stream(values()).filter(r -> r.word().equals(word)).findFirst();
  }

  /**
   * Tells whether a route may be asked, for the book the key is of.
   *
   * @param route as it was added to the server, "/api/books/{b}/map"
   */
  boolean may(String method, String route) {
    if (!route.startsWith("/api/")) {
      return this == PHONE ? route.equals(page) : !NOT_OF_A_BOOK.contains(route);
    }
    boolean ofBook = route.equals(BOOK) || route.startsWith(BOOK + "/");
    boolean ofHook = route.equals(HOOKS) || route.startsWith(HOOKS + "/");
    return this == OWNER ? ofBook && !ofHook : routes.contains(method + " " + route);
  }
}
