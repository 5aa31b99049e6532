package org.barmap.library.sql;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Change;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.kind.Correction;
import org.barmap.library.Settings;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Puts values into columns as JSON, and takes them out. */
final class Json {

  private static final ObjectWriter WRITER =
      BarMapJson.mapper().writer().without(SerializationFeature.INDENT_OUTPUT);

  private Json() {}

  static String write(Object value) {
    return WRITER.writeValueAsString(value);
  }

  static BarMap map(String json) {
    return BarMapJson.mapper().readValue(json, BarMap.class);
  }

  /** Takes a draft out; one kept without its open findings by an older program is judged now. */
  static Draft draft(BarMap map, String settled, Optional<String> open) {
    Settled people = BarMapJson.mapper().readValue(settled, Settled.class);
    return open.map(o -> new Draft(map, people, findings(o)))
        .orElseGet(() -> Resettling.judged(Draft.of(map).with(people)));
  }

  static List<Bar> bars(String json) {
    return List.of(BarMapJson.mapper().readValue(json, Bar[].class));
  }

  private static List<Finding> findings(String json) {
    return List.of(BarMapJson.mapper().readValue(json, Finding[].class));
  }

  static Change change(String json) {
    return BarMapJson.mapper().readValue(json, Change.class);
  }

  static String correction(Correction correction) {
    return BarMapJson.mapper()
        .writerFor(Correction.class)
        .without(SerializationFeature.INDENT_OUTPUT)
        .writeValueAsString(correction);
  }

  static Settings settings(String json) {
    return BarMapJson.mapper().readValue(json, Settings.class);
  }

  static List<ObjectNode> objects(String json) {
    List<ObjectNode> objects = new ArrayList<>();
    for (JsonNode node : BarMapJson.mapper().readTree(json)) {
      if (node instanceof ObjectNode object) {
        objects.add(object);
      }
    }
    return objects;
  }

  static String array(List<ObjectNode> objects) {
    ArrayNode array = BarMapJson.mapper().createArrayNode();
    objects.forEach(array::add);
    return write(array);
  }
}
