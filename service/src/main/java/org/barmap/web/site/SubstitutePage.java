package org.barmap.web.site;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.sheet.SubstituteText;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A page for a player who sits in for one night, as a single file: it fetches nothing, works from a
 * disk or a phone, and holds no picture. What is to be read stands in it as text, also where
 * scripts don't run; the stand is its only script.
 */
public final class SubstitutePage {

  private static final String SCRIPT = Bundle.of("/js/stand/alone.js");
  private static final String STYLE =
      SitePages.resource("/site/css/base.css")
          + SitePages.resource("/site/css/stand.css")
          + SitePages.resource("/site/css/alone.css");

  /** What the stand needs to know of a bar, and nothing of how the page looks. */
  private static final List<String> BAR =
      List.of("id", "page", "number", "label", "count", "meter", "rehearsal", "content");

  private SubstitutePage() {}

  /** Returns the page. */
  public static String html(BarMap map, Plan plan) {
    JsonNode told = PlanJson.tree(plan);
    StringBuilder body = new StringBuilder();
    for (SubstituteText.Line line : SubstituteText.general(plan)) {
      body.append("<p>").append(text(line.text())).append("</p>");
    }
    for (SubstituteText.Number number : SubstituteText.numbers(plan)) {
      number(body, number);
    }
    list(body, "Turns", turns(told.path("turns")));
    list(body, "Long rests", places(told.path("rests")));
    list(body, "Instruments, bow, mute", places(told.path("instruments")));
    String title = map.book().title() + ", " + map.book().part();
    return SitePages.page("alone")
        .replace("{{rules}}", "script-src " + hash(SCRIPT) + "; style-src " + hash(STYLE))
        .replace("{{title}}", text(title))
        .replace("{{style}}", STYLE)
        .replace("{{body}}", body)
        .replace("{{book}}", data(map, told))
        .replace("{{script}}", SCRIPT);
  }

  private static void number(StringBuilder body, SubstituteText.Number number) {
    body.append("<section class=\"alone-number\"><h2>").append(text(number.title()));
    body.append(" <span class=\"soft small\">").append(text(number.right()));
    body.append("</span></h2>");
    boolean open = false;
    for (SubstituteText.Line line : number.lines()) {
      if (line.inside() != open) {
        body.append(open ? "</ul>" : "<ul>");
        open = line.inside();
      }
      String tag = open ? "li" : "p";
      String kind = line.grave() ? " class=\"alone-grave\"" : "";
      body.append('<').append(tag).append(kind).append('>').append(text(line.text()));
      body.append("</").append(tag).append('>');
    }
    body.append(open ? "</ul></section>" : "</section>");
  }

  private static List<String> turns(JsonNode turns) {
    List<String> lines = new ArrayList<>();
    for (JsonNode turn : turns) {
      lines.add(
          "No. %s, page %d to %d: %s"
              .formatted(
                  turn.path("number").asString(""),
                  turn.path("fromPage").asInt(),
                  turn.path("toPage").asInt(),
                  turn.path("advice").path(0).path("text").asString("")));
    }
    return lines;
  }

  private static List<String> places(JsonNode list) {
    List<String> lines = new ArrayList<>();
    for (JsonNode one : list) {
      lines.add("No. " + one.path("number").asString("") + ": " + one.path("text").asString(""));
    }
    return lines;
  }

  private static void list(StringBuilder body, String title, List<String> lines) {
    if (lines.isEmpty()) {
      return;
    }
    body.append("<section class=\"alone-number\"><h2>").append(text(title)).append("</h2><ul>");
    lines.forEach(line -> body.append("<li>").append(text(line)).append("</li>"));
    body.append("</ul></section>");
  }

  /** Returns the plan and what the stand needs of the map; nothing in it can end the element. */
  private static String data(BarMap map, JsonNode plan) {
    ObjectNode book = BarMapJson.mapper().createObjectNode();
    JsonNode whole = BarMapJson.mapper().valueToTree(map);
    ObjectNode small = book.putObject("map");
    small.set("book", whole.path("book"));
    ArrayNode bars = small.putArray("bars");
    for (JsonNode bar : whole.path("bars")) {
      ObjectNode kept = bars.addObject();
      BAR.stream().filter(bar::has).forEach(key -> kept.set(key, bar.path(key)));
    }
    ObjectNode told = ((ObjectNode) plan).deepCopy();
    told.remove(List.of("pencil", "findings", "settings"));
    book.set("plan", told);
    return book.toString().replace("<", "\\u003c");
  }

  private static String text(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  private static String hash(String text) {
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      byte[] hash = sha.digest(text.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(hash) + "'";
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
