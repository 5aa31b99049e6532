package org.barmap.web.site;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

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
          new Room("practice", "Practice", List.of("/practice.html")),
          new Room("stand", "The stand", List.of("/stand.html")));

  private static final String HEAD = text("head");
  private static final String BODY = text("room");
  private static final String NOWHERE = filled(HEAD + text("nowhere"), "", "Nothing here");

  private SitePages() {}

  /** Serves every page. */
  public static void register(RoutesConfig routes) {
    for (Room room : ROOMS) {
      String page = filled(HEAD + BODY, room.name(), room.title());
      room.addresses().forEach(address -> routes.get(address, ctx -> show(ctx, page)));
    }
  }

  /** Returns the page for an address that has none. */
  public static String nowhere() {
    return NOWHERE;
  }

  private static void show(Context ctx, String page) {
    ctx.header("Cache-Control", "no-cache");
    ctx.html(page);
  }

  private static String filled(String page, String room, String title) {
    return page.replace("{{room}}", room).replace("{{title}}", title);
  }

  private static String text(String name) {
    try (InputStream file = SitePages.class.getResourceAsStream("/frame/" + name + ".html")) {
      if (file == null) {
        throw new IllegalStateException("the build lacks frame/" + name + ".html");
      }
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
