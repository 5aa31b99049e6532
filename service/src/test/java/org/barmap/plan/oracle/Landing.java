package org.barmap.plan.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.piece.Span;
import org.barmap.plan.piece.Spans;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.MissingNode;
import tools.jackson.databind.node.ObjectNode;

/** What a cut leaves out, and where its bracket says that one lands. */
final class Landing {
  private static final String OPEN = "[ cut to ";

  private Landing() {}

  static JsonNode of(Worked worked, String id) {
    Optional<ShowChange> change =
        worked.given().changes().stream().filter(c -> c.meta().id().equals(id)).findFirst();
    if (change.isEmpty()) {
      return MissingNode.getInstance();
    }
    WrittenNumber number = worked.written(change.get().number());
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    for (Span span : Spans.of(number, List.of(change.get()), new ArrayList<>())) {
      node.put("out", out(number, span));
    }
    for (PencilMark mark : worked.plan().pencil()) {
      if (mark.change().filter(id::equals).isPresent() && mark.sign().startsWith(OPEN)) {
        String land = mark.sign().substring(OPEN.length());
        int beat = land.indexOf(" (beat ");
        node.put("land", land.replaceFirst(" \\(.*", ""));
        if (beat >= 0) {
          node.put("beat", Double.parseDouble(land.substring(beat + 7, land.indexOf(')'))));
        }
      }
    }
    return node;
  }

  private static String out(WrittenNumber number, Span span) {
    List<String> bars = new ArrayList<>();
    for (int slot = span.from(); slot <= span.to(); slot++) {
      int beats = number.barAt(slot).meter().map(m -> m.beats()).orElse(0);
      double first = slot == span.from() ? span.fromBeat().orElse(1) : 1;
      double last = slot == span.to() ? span.toBeat().orElse(beats) : beats;
      boolean whole = first == 1 && last == beats;
      String part = "[" + Worked.figure(first) + "-" + Worked.figure(last) + "]";
      bars.add(Worked.name(number, slot) + (whole ? "" : part));
    }
    return String.join(" ", bars);
  }
}
