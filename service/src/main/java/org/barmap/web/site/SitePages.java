package org.barmap.web.site;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** The pages a browser opens: one head and one body for all rooms, filled with what differs. */
public final class SitePages {

  /**
   * A page with a script of its own.
   *
   * @param name of its folder of scripts and of its style sheet
   * @param title what the window is called until the script knows better
   * @param addresses where it is
   */
  private record Room(String name, String title, List<String> addresses) {}

  private static final List<Room> ROOMS =
      List.of(
          new Room("shelf", "The shelf", List.of("/", "/index.html")),
          new Room("book", "Pages", List.of("/book.html")),
          new Room("desk", "Correct", List.of("/desk.html")),
          new Room("road", "Road map", List.of("/road.html")),
          new Room("turns", "Turns", List.of("/turns.html")),
          new Room("align", "Two parts", List.of("/align.html")),
          new Room("practice", "Practice", List.of("/practice.html")),
          new Room("stand", "The stand", List.of("/stand.html")),
          new Room("phone", "Photograph pages", List.of("/phone.html")));

  private static final String HEAD = page("head");
  private static final String BODY = text("room");
  private static final String NOWHERE = filled(HEAD + text("nowhere"), "", "Nothing here");

  private static final String SHUT = page("shut");
  private static final String ONWARD = page("onward");

  private SitePages() {}

  /**
   * Serves every page, what a browser needs to keep them all, and the worker that does it. The
   * worker's text holds the version: when that is another one, browsers see another worker.
   */
  public static void register(RoutesConfig routes) {
    ROOMS.stream()
        .flatMap(room -> room.addresses().stream())
        .forEach(address -> routes.get(address, ctx -> show(ctx, Filled.page(address))));
    DocsPages.register(routes);
    routes.get("/site.json", ctx -> fresh(ctx).json(Filled.SITE));
    routes.get("/sw.js", ctx -> fresh(ctx).contentType("text/javascript").result(Filled.WORKER));
  }

  /** What all pages say, put together when a browser first asks: no start waits for that. */
  private static final class Filled {
    private static final Map<String, String> PAGES = pages();
    private static final SiteFiles SITE = SiteFiles.with(PAGES);
    private static final String WORKER =
        resource("/site/sw.js").replace("{{version}}", SITE.version());

    static String page(String address) {
      return PAGES.getOrDefault(address, NOWHERE);
    }

    private static Map<String, String> pages() {
      Map<String, String> pages = new LinkedHashMap<>();
      for (Room room : ROOMS) {
        String page = filled(HEAD + BODY, room.name(), room.title());
        room.addresses().forEach(address -> pages.put(address, page));
      }
      return pages;
    }
  }

  /** Returns the page for an address that has none. */
  public static String nowhere() {
    return NOWHERE;
  }

  /**
   * Returns the page for somebody who may not come in; it is one file, as nothing else is given.
   *
   * @param title plain text of ours, as is the detail
   */
  public static String shut(String title, String detail) {
    return SHUT.replace("{{title}}", title).replace("{{detail}}", detail);
  }

  /**
   * Returns the page that leads on to another one.
   *
   * @param to an address of ours
   */
  public static String onward(String to) {
    return ONWARD.replace("{{to}}", to);
  }

  static void show(Context ctx, String page) {
    fresh(ctx).html(page);
  }

  private static Context fresh(Context ctx) {
    return ctx.header("Cache-Control", "no-cache");
  }

  private static String filled(String page, String room, String title) {
    return page.replace("{{modules}}", modules(room))
        .replace("{{room}}", room)
        .replace("{{title}}", title);
  }

  /** Named in the head, all modules of a room are fetched at once, not one depth after another. */
  private static String modules(String room) {
    if (room.isEmpty()) {
      return "";
    }
    return Bundle.imported("/js/" + room + "/main.js").stream()
        .map("<link rel=\"modulepreload\" href=\"%s\">"::formatted)
        .collect(Collectors.joining("\n    "));
  }

  private static String text(String name) {
    return resource("/frame/" + name + ".html");
  }

  /** A page's text with the beginning that all have. */
  static String page(String name) {
    return text("top") + text(name);
  }

  static String resource(String path) {
    try (InputStream file = SitePages.class.getResourceAsStream(path)) {
      if (file == null) {
        throw new IllegalStateException("the build lacks " + path);
      }
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
