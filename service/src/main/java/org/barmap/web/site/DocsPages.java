package org.barmap.web.site;

import io.javalin.config.RoutesConfig;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The pages for people who write programs: texts in one frame, without the rooms' scripts. No page
 * of a book needs them, so a browser does not keep them.
 */
final class DocsPages {

  private static final String INDEX = "index";
  private static final Pattern HEADING = Pattern.compile("<h1>(.*?)</h1>");
  private static final String BACK =
      "<nav class=\"rooms\" aria-label=\"Documentation\">"
          + "<a href=\"/docs/index.html\">For other programs</a></nav>";

  /**
   * One text.
   *
   * @param name of its file
   * @param script its module below {@code /js/docs}, empty without one
   */
  private record Doc(String name, String script) {

    Doc(String name) {
      this(name, "");
    }
  }

  private static final List<Doc> DOCS =
      List.of(
          new Doc(INDEX),
          new Doc("api", "api"),
          new Doc("formats", "formats"),
          new Doc("consumers", "programs"),
          new Doc("following"),
          new Doc("engines"),
          new Doc("library"),
          new Doc("regions"),
          new Doc("run"));

  private DocsPages() {}

  static void register(RoutesConfig routes) {
    String frame = SitePages.page("head") + SitePages.resource("/frame/docs.html");
    for (Doc doc : DOCS) {
      String page = filled(frame, doc);
      routes.get("/docs/" + doc.name() + ".html", ctx -> SitePages.show(ctx, page));
      if (doc.name().equals(INDEX)) {
        routes.get("/docs", ctx -> SitePages.show(ctx, page));
      }
    }
  }

  private static String filled(String frame, Doc doc) {
    String text = SitePages.resource("/docs/" + doc.name() + ".html");
    Matcher heading = HEADING.matcher(text);
    if (!heading.find()) {
      throw new IllegalStateException("no heading in docs/" + doc.name() + ".html");
    }
    return frame
        .replace("{{title}}", heading.group(1))
        .replace("{{script}}", script(doc.script()))
        .replace("{{back}}", doc.name().equals(INDEX) ? "" : BACK)
        .replace("{{text}}", text.strip());
  }

  private static String script(String name) {
    return name.isEmpty()
        ? ""
        : "<script type=\"module\" src=\"/js/docs/%s.js\"></script>".formatted(name);
  }
}
