package org.barmap.plan.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.ChangeWords;
import org.barmap.plan.words.doubt.Topics;
import org.barmap.plan.words.earlier.Known;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What a director's words and the changes of a case come to. */
final class Meaning {

  private Meaning() {}

  /**
   * The changes of a case, its words understood.
   *
   * @param changes what is given to the planner; ids as in the cases
   * @param askedBack what was not understood, as findings
   */
  record Given(List<ShowChange> changes, List<JsonNode> askedBack) {}

  static Given given(BarMap map, List<JsonNode> said, Optional<String> today) {
    List<ShowChange> changes = new ArrayList<>();
    List<JsonNode> asked = new ArrayList<>();
    for (int i = 0; i < said.size(); i++) {
      String id = "c" + (i + 1);
      if (!said.get(i).isString()) {
        changes.add(ChangesJson.readOne(said.get(i)));
        continue;
      }
      int many = 0;
      for (Heard<ShowChange> heard :
          ChangeWords.understand(map, said.get(i).asString(), Known.of(changes, today))) {
        if (heard instanceof Heard.Understood<ShowChange> understood) {
          ObjectNode change = ChangesJson.tree(understood.change());
          changes.add(ChangesJson.readOne(change.put("id", many == 0 ? id : id + "-" + many)));
          many++;
        } else if (heard instanceof Heard.AskedBack<ShowChange> back) {
          ObjectNode finding = BarMapJson.mapper().createObjectNode().put("change", id);
          Topics.of(back).ifPresent(t -> finding.put("topic", t.word()));
          asked.add(finding.put("text", back.question()));
        }
      }
    }
    return new Given(changes, asked);
  }

  /** Returns what one sentence means, or what is asked back about it. */
  static JsonNode understood(BarMap map, String words) {
    return understood(map, words, Known.NOTHING);
  }

  /** Returns the same where something is known: the changes said before, the day. */
  static JsonNode understood(BarMap map, String words, Known known) {
    ObjectNode answer = BarMapJson.mapper().createObjectNode();
    for (Heard<ShowChange> heard : ChangeWords.understand(map, words, known)) {
      if (heard instanceof Heard.Understood<ShowChange> understood) {
        if (understood.change().kept().isPresent()) {
          answer.put("kept", true);
        } else {
          answer.withArray("changes").add(plain(map, understood.change()));
        }
      } else if (heard instanceof Heard.AskedBack<ShowChange> back) {
        answer.put("refused", back.question() + " " + back.candidates());
        ArrayNode readings = answer.withArray("asked");
        back.readings().forEach(r -> readings.add(reading(map, r)));
        if (back.readings().isEmpty()) {
          back.candidates().forEach(c -> readings.add(reading(map, c)));
        }
      }
    }
    return answer;
  }

  private static JsonNode reading(BarMap map, Heard.Reading<ShowChange> reading) {
    ArrayNode changes = BarMapJson.mapper().createArrayNode();
    reading.changes().forEach(c -> changes.add(plain(map, c)));
    return changes.isEmpty() ? BarMapJson.mapper().valueToTree(reading.says()) : changes;
  }

  /** A candidate as a change where it is one in words, else as it is. */
  private static JsonNode reading(BarMap map, String candidate) {
    List<Heard<ShowChange>> heard = ChangeWords.understand(map, candidate);
    ArrayNode changes = BarMapJson.mapper().createArrayNode();
    heard.forEach(
        h -> {
          if (h instanceof Heard.Understood<ShowChange> understood) {
            changes.add(plain(map, understood.change()));
          }
        });
    return changes.isEmpty() ? BarMapJson.mapper().valueToTree(candidate) : changes;
  }

  /** A change with its addresses as the names of the bars they mean. */
  private static JsonNode plain(BarMap map, ShowChange change) {
    ObjectNode node = ChangesJson.tree(change);
    for (WrittenNumber number : WrittenNumber.all(map)) {
      if (number.label().equals(change.number())) {
        for (String key : List.of("first", "last", "after", "from", "exitBar")) {
          if (node.has(key)) {
            node.put(key, plain(number, node.get(key).asString()));
          }
        }
        behind(number, node);
      }
    }
    return node;
  }

  /** Bars added before a bar come after the one before it. */
  private static void behind(WrittenNumber number, ObjectNode node) {
    Optional<Integer> slot =
        Optional.of(new Addresses(number).find(node.path("before").asString("")))
            .filter(f -> f instanceof Found.At at && at.place().slot() > 0)
            .map(f -> ((Found.At) f).place().slot());
    slot.ifPresent(s -> node.put("after", number.nameAt(s - 1)).remove("before"));
  }

  private static String plain(WrittenNumber number, String address) {
    if (!(new Addresses(number).find(address) instanceof Found.At at)) {
      return address;
    }
    String name = number.nameAt(at.place().slot());
    return at.place().beat().isPresent()
        ? name + " beat " + Worked.figure(at.place().beat().getAsDouble())
        : name;
  }
}
