package org.barmap.plan.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.exchange.chair.ChairBars;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Night;
import org.barmap.plan.RunSheet;
import org.barmap.plan.cases.Answers;
import org.barmap.plan.cases.Situation;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.pace.Length;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.words.earlier.Known;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.MissingNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The planner's answers to the trade's cases, translated word by word; nothing is worked out here
 * that the planner does not say. What it has no answer for is a {@link NoAnswer}, or a key left
 * out; {@link Unsaid} lists those.
 */
final class PlannerAnswers implements Answers {

  static final String UNKNOWN = "unknown";

  private static ObjectNode object() {
    return BarMapJson.mapper().createObjectNode();
  }

  private static JsonNode tree(Object value) {
    return BarMapJson.mapper().valueToTree(value);
  }

  private static Object orUnknown(Optional<Double> figure) {
    return figure.isPresent() ? figure.get() : UNKNOWN;
  }

  private static ObjectNode length(Length length) {
    ObjectNode node = object().put("bars", length.bars());
    node.set("beats", tree(orUnknown(length.beats())));
    node.set("seconds", tree(orUnknown(length.seconds())));
    node.set("plus", tree(length.plus()));
    return node;
  }

  @Override
  public JsonNode order(Situation s, String number) {
    return tree(Worked.of(s).inOrder(number, Worked.Sounding::text));
  }

  @Override
  public JsonNode played(Situation s, String number) {
    return length(Worked.of(s).number(number).played());
  }

  @Override
  public JsonNode rests(Situation s, String number) {
    Worked worked = Worked.of(s);
    ArrayNode rests = BarMapJson.mapper().createArrayNode();
    for (LongRest rest : worked.plan().rests()) {
      for (int pass : rest.number().equals(number) ? rest.passes() : List.<Integer>of()) {
        ObjectNode node = rests.addObject().put("pass", pass).put("bars", rest.bars());
        node.put("first", worked.first(rest.first()));
        rest.entrance().ifPresent(e -> node.put("enters", worked.first(e)));
        node.set("says", tree(rest.count()));
      }
    }
    return rests;
  }

  @Override
  public JsonNode turns(Situation s) {
    Worked worked = Worked.of(s);
    ArrayNode turns = BarMapJson.mapper().createArrayNode();
    for (Turn turn : worked.plan().turns()) {
      ObjectNode node = length(turn.gap()).put("from", turn.fromPage()).put("to", turn.toPage());
      node.put("direction", turn.direction().name().toLowerCase(Locale.ROOT));
      node.put("pass", turn.pass()).put("sheets", turn.sheets());
      node.put("open", !turn.gap().plus().isEmpty());
      node.put("leaves", worked.last(turn.leaves())).put("arrives", worked.first(turn.arrives()));
      turns.add(node.put("verdict", turn.verdict().word()));
    }
    return turns;
  }

  @Override
  public JsonNode side(Situation s, int page) {
    return tree(
        Worked.of(s).plan().pages().stream()
            .filter(p -> p.page() == page)
            .findFirst()
            .orElseThrow()
            .side()
            .word());
  }

  @Override
  public JsonNode state(Situation s, String number, String bar, int pass) {
    return States.at(Worked.of(s), number, bar, pass);
  }

  @Override
  public JsonNode playing(Situation s, String number, String bar) {
    Worked worked = Worked.of(s);
    ArrayNode playing = BarMapJson.mapper().createArrayNode();
    for (Worked.Sounding sounding : worked.sounding(number)) {
      if (sounding.name().equals(bar)) {
        boolean rest =
            sounding.entry().added().isPresent()
                ? sounding.entry().added().get().content().filter("rest"::equals).isPresent()
                : worked.written(number).barAt(sounding.slot()).isRest();
        playing.add(!rest && !sounding.entry().silent().orElse(false));
      }
    }
    return playing;
  }

  @Override
  public JsonNode marks(Situation s) {
    return marks(s, Optional.empty());
  }

  @Override
  public JsonNode marks(Situation s, String number) {
    return marks(s, Optional.of(number));
  }

  private static JsonNode marks(Situation s, Optional<String> number) {
    ArrayNode marks = BarMapJson.mapper().createArrayNode();
    for (PencilMark mark : Worked.of(s).plan().pencil()) {
      if (number.isEmpty() || number.get().equals(mark.number())) {
        ObjectNode node = marks.addObject().put("number", mark.number()).put("bar", mark.where());
        node.put("mark", mark.mark()).put("says", mark.sign());
      }
    }
    return marks;
  }

  @Override
  public JsonNode questions(Situation s) {
    ArrayNode questions = BarMapJson.mapper().createArrayNode();
    Worked worked = Worked.of(s);
    // what is asked back about words is a question to the player as well
    worked.given().askedBack().stream().filter(a -> a.has("topic")).forEach(questions::add);
    for (PlanFinding finding : worked.plan().findings()) {
      finding
          .question()
          .ifPresent(
              q -> {
                ObjectNode node = questions.addObject().put("topic", q.topic().word());
                q.about().ifPresent(a -> node.put("about", a));
                ArrayNode readings = node.putArray("readings");
                q.readings().forEach(r -> readings.add(r.bars().orElse(r.says())));
              });
    }
    return questions;
  }

  @Override
  public JsonNode told(Situation s) {
    Worked worked = Worked.of(s);
    ArrayNode told = BarMapJson.mapper().createArrayNode();
    told.addAll(worked.given().askedBack());
    for (PlanFinding finding : worked.plan().findings()) {
      ObjectNode node = told.addObject().put("severity", finding.severity().word());
      node.put("text", finding.text());
      finding.at().ifPresent(a -> node.put("about", worked.first(a)));
      finding.change().ifPresent(c -> node.put("change", c));
    }
    return told;
  }

  @Override
  public JsonNode understood(Situation s, String words) {
    Optional<String> today = s.settings().path("today").asStringOpt();
    List<ShowChange> before = Meaning.given(s.book().map(), s.changes(), today).changes();
    return Meaning.understood(s.book().map(), words, Known.of(before, today));
  }

  @Override
  public JsonNode landing(Situation s, int change) {
    return Landing.of(Worked.of(s), "c" + change);
  }

  @Override
  public JsonNode instruments(Situation s) {
    Worked worked = Worked.of(s);
    ArrayNode changes = BarMapJson.mapper().createArrayNode();
    for (GetReady ready : worked.plan().instruments()) {
      if (ready.from().isEmpty() && changes.isEmpty()) {
        continue; // what is in hand first is taken up, but nothing changes
      }
      ObjectNode node = changes.addObject().put("number", ready.number());
      node.put("at", worked.first(ready.at())).put("pass", ready.pass());
      ready.from().ifPresent(f -> node.put("from", States.hand(f)));
      node.put("to", States.hand(ready.to())).put("kind", ready.kind().word());
      node.set("seconds", tree(orUnknown(ready.seconds())));
      node.put("verdict", ready.verdict().word());
    }
    return changes;
  }

  @Override
  public JsonNode link(Situation s, String after) {
    return object().put("kind", Worked.of(s).number(after).link().word());
  }

  @Override
  public JsonNode runSheet(Situation s, String number) {
    Worked worked = Worked.of(s);
    RunSheet line =
        worked.plan().runSheet().stream()
            .filter(r -> r.number().equals(number))
            .findFirst()
            .orElseThrow();
    ObjectNode node = object().put("state", line.state().word());
    line.page().ifPresent(p -> node.put("page", p));
    line.instruments().stream().findFirst().ifPresent(i -> node.put("instrument", i));
    line.entrance().ifPresent(e -> node.put("entrance", e.replaceFirst("^bar ", "")));
    node.put("link", line.link().word()).put("track", line.track());
    node.set("seconds", tree(orUnknown(line.seconds())));
    node.set("plus", tree(line.plus()));
    node.set("cuts", tree(line.cuts()));
    node.set("vamps", tree(line.vamps()));
    line.opening()
        .ifPresent(
            o -> {
              o.meter().ifPresent(m -> node.put("meter", m));
              node.put("beats", o.beats());
              node.set("tempo", tree(orUnknown(o.perMinute())));
              o.instrument().ifPresent(i -> node.put("instrument", i));
              o.bow().ifPresent(b -> node.put("bow", b));
            });
    return node;
  }

  @Override
  public JsonNode night(Situation s) {
    Night night = Worked.of(s).plan().night();
    ObjectNode node = object().put("seconds", night.seconds());
    node.set("plus", tree(night.plus().stream().map(Night.Plus::what).toList()));
    node.set("without", tree(night.without()));
    return node;
  }

  @Override
  public JsonNode carried(Situation s) {
    return Carried.by(Worked.of(s));
  }

  @Override
  public JsonNode checked(Situation s) {
    return tree(Worked.of(s).plan().checked());
  }

  @Override
  public JsonNode advice(Situation s, int from, int to, int pass) {
    Worked worked = Worked.of(s);
    Optional<Turn> turn =
        worked.plan().turns().stream()
            .filter(t -> t.fromPage() == from && t.toPage() == to && t.pass() == pass)
            .findFirst();
    if (turn.isEmpty()) {
      return MissingNode.getInstance();
    }
    ArrayNode ways = BarMapJson.mapper().createArrayNode();
    for (Advice advice : turn.get().advice()) {
      ObjectNode node = ways.addObject().put("kind", advice.kind().word());
      node.put("text", advice.text());
      advice.after().ifPresent(a -> node.put("after", worked.last(a)));
      advice.memorise().ifPresent(m -> node.put("memorise", m));
    }
    return ways;
  }

  @Override
  public JsonNode click(Situation s, String number) {
    Worked worked = Worked.of(s);
    List<Integer> beats = new ArrayList<>();
    worked.sounding(number).forEach(b -> beats.add(States.pace(worked, number, b.place()).beats()));
    return tree(worked.inOrder(number, b -> Integer.toString(beats.get(b.place()))));
  }

  @Override
  public JsonNode aligned(Situation s, String number, String bar) {
    ChairBars bars = new ChairBars(s.other().orElseThrow().map(), s.book().map());
    return tree(bars.of(number, bar).orElse(UNKNOWN));
  }
}
