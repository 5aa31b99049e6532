package org.barmap.plan.laws;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Consumer;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import tools.jackson.databind.node.ObjectNode;

/** Random changes of every kind there is, for bars a book has. */
final class AnyChange {
  private static final int REACH = 7;

  private final Random random;
  private final List<WrittenNumber> numbers;
  private final Map<String, Consumer<ObjectNode>> makers = new LinkedHashMap<>();
  private WrittenNumber number;

  /** Changes are made near this slot; anywhere where it is less than 0. */
  private int near = -1;

  /** A bar that a change has added before, as it is called; may be empty. */
  private String added = "";

  AnyChange(Random random, BarMap map) {
    this.random = random;
    this.numbers =
        WrittenNumber.all(map).stream().filter(n -> n.slots() > 0 && !n.label().isEmpty()).toList();
    this.number = numbers.get(0);
    bars();
    points();
    whole();
  }

  /** Returns the words of the kinds it makes. */
  List<String> kinds() {
    return List.copyOf(makers.keySet());
  }

  /** Returns a change of any kind. */
  ShowChange any(String id) {
    return make(id, kinds().get(random.nextInt(makers.size())));
  }

  /** Returns a change of a kind, in any number. */
  ShowChange make(String id, String kind) {
    if (near < 0) {
      number = numbers.get(random.nextInt(numbers.size()));
    }
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    node.put("id", id).put("kind", kind);
    if (!kind.equals("order")) {
      node.put("number", number.label());
    }
    makers.getOrDefault(kind, n -> {}).accept(node);
    return ChangesJson.readOne(node);
  }

  private void bars() {
    makers.put("cut", this::stretch);
    makers.put("safety", this::stretch);
    makers.put("vamp", n -> stretch(n.put("leave", pick("any-time", "end-of-pass"))));
    makers.put("play", n -> stretch(n.put("times", 1 + random.nextInt(3))));
    makers.put("beats", n -> stretch(n.put("beats", 1 + random.nextInt(4))));
    makers.put("only", n -> stretch(n.put("pass", pick("1", "2", "last", "after-jump"))));
    makers.put(
        "not",
        n -> {
          stretch(n);
          if (random.nextBoolean()) {
            n.put("pass", pick("1", "2", "last"));
          }
        });
    makers.put("rit", this::stretch);
    makers.put("accel", this::stretch);
    makers.put("meter", n -> stretch(n.put("meter", pick("2/4", "3/4", "6/8"))));
    makers.put("restore", this::stretch);
    makers.put(
        "jump",
        n -> {
          int to = random.nextInt(number.slots());
          int from = Math.min(number.slots() - 1, to + random.nextInt(4));
          n.put("from", number.nameAt(from)).put("to", number.nameAt(to));
        });
  }

  private void points() {
    makers.put("insert", n -> n.put("after", bar()).put("bars", 1 + random.nextInt(3)));
    makers.put("tempo", n -> n.put("first", bar()).put("beat", "1/4").put("perMinute", 97));
    makers.put("key", n -> n.put("first", bar()).put("fifths", random.nextInt(11) - 5));
    makers.put("instrument", n -> n.put("first", bar()).put("to", "tuba"));
    makers.put("remind", n -> n.put("first", bar()).put("what", pick("watch", "pizz", "cue")));
    makers.put("hold", n -> n.put(pick("first", "after"), bar()));
    makers.put("gp", n -> n.put(pick("first", "after"), bar()));
    makers.put("note", n -> n.put("text", "the clarinet has a wrong note"));
    makers.put("a-tempo", n -> n.put("first", bar()));
    makers.put("tempo-word", n -> n.put("first", bar()).put("text", "a little faster"));
    makers.put("without", n -> n.put("first", bar()).put("sign", pick("jump", "hold", "tempo")));
  }

  private void whole() {
    makers.put("tacet", n -> {});
    makers.put("cut-number", n -> {});
    makers.put("track", n -> {});
    makers.put("repeats-after-jump", n -> {});
    makers.put("transpose", n -> n.put("semitones", 1 + random.nextInt(5)));
    makers.put("link", n -> n.put("link", pick("attacca", "segue")));
    if (numbers.size() > 1) {
      makers.put(
          "order",
          n -> n.putArray("numbers").add(numbers.get(1).label()).add(numbers.get(0).label()));
    }
  }

  private void stretch(ObjectNode node) {
    int from = slot();
    int to = Math.min(number.slots() - 1, from + random.nextInt(near < 0 ? 4 : REACH));
    String first = onAdded() ? added : number.nameAt(from);
    node.put("first", first).put("last", onAdded() ? added : number.nameAt(to));
  }

  private String bar() {
    return onAdded() ? added : number.nameAt(slot());
  }

  private int slot() {
    if (near < 0) {
      return random.nextInt(number.slots());
    }
    return Math.max(0, Math.min(number.slots() - 1, near + random.nextInt(REACH) - REACH / 2));
  }

  private boolean onAdded() {
    return !added.isEmpty() && random.nextInt(5) == 0;
  }

  private String pick(String... words) {
    return words[random.nextInt(words.length)];
  }

  /**
   * Returns two to six changes of any kinds that meet in a few bars of one number: over its
   * repeats, inside its rests, on bars that one of them adds, on the whole number.
   */
  List<ShowChange> meeting(String id) {
    number = numbers.get(random.nextInt(numbers.size()));
    near = random.nextInt(number.slots());
    List<ShowChange> some = new ArrayList<>();
    if (random.nextInt(3) == 0) {
      ObjectNode node = BarMapJson.mapper().createObjectNode();
      node.put("id", id + "-added").put("kind", "insert").put("number", number.label());
      node.put("after", bar()).put("bars", 1 + random.nextInt(3)).put("label", "900A");
      some.add(ChangesJson.readOne(node));
      added = "900A";
    }
    int many = 2 + random.nextInt(5);
    for (int i = some.size(); i < many; i++) {
      some.add(any(id + i));
    }
    near = -1;
    added = "";
    return some;
  }

  /** Returns some changes of any kinds. */
  List<ShowChange> some(String id, int many) {
    List<ShowChange> some = new ArrayList<>();
    for (int i = 0; i < many; i++) {
      some.add(any(id + i));
    }
    return some;
  }
}
