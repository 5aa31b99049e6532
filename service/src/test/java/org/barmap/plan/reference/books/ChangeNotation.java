package org.barmap.plan.reference.books;

import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.reference.Change;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Changes in a line of text, as in {@code cases.txt}; writes the JSON of {@code changes/1}.
 *
 * <pre>
 * [off] [No.LABEL] cut FIRST..LAST [@1|@last]     vamp, safety FIRST..LAST
 *                  play FIRST..LAST xTIMES        insert after|before BAR BARS LABEL
 *                  only, not FIRST..LAST @1|@last restore FIRST..LAST
 *                  jump FROM..BACK [xTIMES]       without BAR   repeats-after-jump
 *                  tacet  cut-number              order LABEL LABEL ...
 *                  tempo FIRST 1/4=120            beats FIRST..LAST BEATS
 *                  key FIRST FIFTHS               instrument FIRST WORDS
 *                  meter FIRST..LAST 3/4          vamp FIRST..LAST out BAR
 * </pre>
 *
 * A change without a number is of No. 1.
 */
public final class ChangeNotation {

  private static final Pattern HEAD = Pattern.compile("(off )?(?:No\\.(\\S+) )?(\\S+) ?(.*)");
  private static final Pattern STRETCH =
      Pattern.compile("(.+?)\\.\\.(.+?)(?: x(\\d+))?(?: @(\\S+))?");

  private static final Pattern OWN_METER = Pattern.compile("(.* \\d+ \\S+) (\\d+/\\d+)");

  private ChangeNotation() {}

  /** Returns the change a text writes. */
  public static ObjectNode change(String id, String text) {
    Matcher head = HEAD.matcher(text.strip());
    if (!head.matches()) {
      throw new IllegalArgumentException("no change: " + text);
    }
    ObjectNode node = JsonNodeFactory.instance.objectNode();
    node.put("id", id).put("kind", head.group(3));
    if (!head.group(3).equals("order")) {
      node.put("number", head.group(2) == null ? "1" : head.group(2));
    }
    if (head.group(1) != null) {
      node.put("on", false);
    }
    rest(node, head.group(3), head.group(4));
    return node;
  }

  private static void rest(ObjectNode node, String kind, String rest) {
    String[] words = rest.split(" ");
    switch (kind) {
      case "cut", "vamp", "safety", "play", "only", "not", "restore" -> stretch(node, kind, rest);
      case "jump" -> {
        stretch(node, kind, rest);
        node.set("from", node.remove("first"));
        node.set("to", node.remove("last"));
      }
      case "without" -> node.put("first", rest).put("sign", "jump");
      case "insert" -> {
        String side = rest.startsWith("before ") ? "before" : "after";
        Matcher meter = OWN_METER.matcher(rest);
        if (meter.matches()) {
          node.put("meter", meter.group(2));
        }
        String bare = meter.matches() ? meter.group(1) : rest;
        String[] parts = bare.replaceFirst("^(after|before) ", "").split(" (?=\\d+ \\S+$)");
        node.put(side, parts[0]);
        node.put("bars", Integer.parseInt(parts[1].split(" ")[0]));
        node.put("label", parts[1].split(" ")[1]);
      }
      case "order" -> Arrays.stream(words).forEach(node.putArray("numbers")::add);
      case "tempo" -> {
        String[] figure = words[words.length - 1].split("=");
        node.put("first", rest.substring(0, rest.lastIndexOf(' ')));
        node.put("beat", figure[0]).put("perMinute", Double.parseDouble(figure[1]));
      }
      case "meter" -> {
        stretch(node, kind, rest.substring(0, rest.lastIndexOf(' ')));
        node.put("meter", words[words.length - 1]);
      }
      case "beats" -> {
        Matcher stretch = STRETCH.matcher(rest.substring(0, rest.lastIndexOf(' ')));
        if (!stretch.matches()) {
          throw new IllegalArgumentException("no stretch: " + rest);
        }
        node.put("first", stretch.group(1)).put("last", stretch.group(2));
        node.put("beats", Integer.parseInt(words[words.length - 1]));
      }
      case "key" -> node.put("first", words[0]).put("fifths", Integer.parseInt(words[1]));
      case "instrument" ->
          node.put("first", words[0]).put("to", rest.substring(rest.indexOf(' ') + 1));
      default -> {}
    }
  }

  private static void stretch(ObjectNode node, String kind, String all) {
    int out = all.indexOf(" out ");
    String rest = out < 0 ? all : all.substring(0, out);
    if (out >= 0) {
      node.put("exitBar", all.substring(out + 5));
    }
    Matcher stretch = STRETCH.matcher(rest);
    if (!stretch.matches()) {
      throw new IllegalArgumentException("no stretch: " + rest);
    }
    node.put("first", stretch.group(1)).put("last", stretch.group(2));
    if (stretch.group(3) != null) {
      node.put("times", Integer.parseInt(stretch.group(3)));
    }
    if (kind.equals("vamp")) {
      node.put("leave", "end-of-pass");
    }
    if (stretch.group(4) != null) {
      node.put(Change.PASS, stretch.group(4));
    }
  }
}
