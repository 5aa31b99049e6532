package org.barmap.plan.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.LongStream;
import org.assertj.core.api.SoftAssertions;
import org.assertj.core.api.junit.jupiter.SoftAssertionsExtension;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.words.ChangeWords;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Laws of what is understood, on sentences put together at random ({@code -Dbarmap.spoken=2000} for
 * more): the same order in other words is the same change, what only fills changes nothing, a word
 * that nobody knows is asked about, and what is not done is never done.
 */
@ExtendWith(SoftAssertionsExtension.class)
class SpokenLawsTest {
  private static final int ORDERS = Integer.getInteger("barmap.spoken", 12);
  private static final BarMap BOOK = BookNotation.read(SpokenOrders.BOOK).map();

  @Test
  void theSameOrderInOtherWordsIsTheSameChange(SoftAssertions softly) {
    each(
        said -> {
          SpokenOrders.Order order = said.next();
          JsonNode first = changes("No. 3: " + order.ways().get(0));
          softly.assertThat(first.isEmpty()).as(order.ways().get(0)).isFalse();
          for (String way : order.ways()) {
            String sentence = said.about(way);
            softly.assertThat(changes(sentence)).as(sentence).isEqualTo(first);
          }
        });
  }

  @Test
  void whatOnlyFillsChangesNothing(SoftAssertions softly) {
    each(
        said -> {
          String way = said.next().ways().get(0);
          JsonNode plain = changes("No. 3: " + way);
          String filled = said.before() + said.about(way) + said.behind();
          softly.assertThat(changes(filled)).as(filled).isEqualTo(plain);
        });
  }

  @Test
  void aWordThatNobodyKnowsIsAsked(SoftAssertions softly) {
    each(
        said -> {
          SpokenOrders.Order order = said.next();
          for (String way : order.ways()) {
            String sentence = said.disturbed("No. 3: " + way, "frobnicated");
            softly.assertThat(changes(sentence)).as(sentence).isEmpty();
            String number = said.disturbed("in three, " + way, "zinfandel");
            softly.assertThat(changes(number)).as(number).isEmpty();
          }
        });
  }

  @Test
  void whatIsNotDoneIsNeverDone(SoftAssertions softly) {
    each(
        said -> {
          SpokenOrders.Order order = said.next();
          List<JsonNode> done = children(changes("No. 3: " + order.ways().get(0)));
          for (String not : order.not()) {
            String sentence = said.before() + said.about(not);
            softly
                .assertThat(children(changes(sentence)))
                .as(sentence)
                .doesNotContainAnyElementsOf(done);
          }
        });
  }

  @Test
  void aQuestionIsNoOrder(SoftAssertions softly) {
    askedAndNotMade(
        softly,
        "Do we still cut 34 in number three?",
        "Number three: should we be cutting from A to B?",
        "Are we still vamping 7 and 8 in three?",
        "Is 12 a fermata in three",
        "In three, did we cut 9 to 12?",
        "Is there a cut at B in number three?");
  }

  @Test
  void anOrderThatIsTurnedByWhatStandsBesideItIsAsked(SoftAssertions softly) {
    askedAndNotMade(
        softly,
        "In three we're cutting 9 to 16, aren't we?",
        "No. 3: 9 to 12 is cut, isn't it?",
        "So in three we cut 9 to 16, right?",
        "In three, cut 9 to 12 - just kidding",
        "No. 3: not 9 to 12, 9 to 14 is cut",
        "No. 3: vamp 12 to 14, not 16",
        "No. 3: vamp 9 to 12 till she's off, then go to C",
        "No. 3: hold 12 till she's off and jump to C",
        "No. 3: 9 to 12 in two, then in four",
        "No. 3: pizz at A, then arco");
  }

  @Test
  void anOrderThatLeansOnTheOneBeforeItIsAboutTheSameBars(SoftAssertions softly) {
    Map<String, String> plain = new LinkedHashMap<>();
    plain.put("No. 3: vamp 9 to 12 and then cut it", "No. 3: vamp 9 to 12; cut 9 to 12");
    plain.put("No. 3: vamp 9 to 12, then hold it", "No. 3: vamp 9 to 12; hold 12");
    plain.put(
        "No. 3: play 9 to 12 twice, second time tacet",
        "No. 3: play 9 to 12 twice; tacet 9 to 12 2nd time");
    plain.put(
        "No. 3: in two from A, and back in four at C", "No. 3: in two from A; in four from C");
    plain.put("No. 3: take one out before C", "No. 3: cut 32");
    plain.put("No. 3: after 12 go to C, it was too slow", "No. 3: cut 13 to 32");
    plain.put("In three, hold bar 12 until Lantern sings", "No. 3: hold 12 until Lantern sings");
    plain.forEach((said, as) -> softly.assertThat(changes(said)).as(said).isEqualTo(changes(as)));
    plain.forEach((said, as) -> softly.assertThat(changes(said).isEmpty()).as(said).isFalse());
  }

  private static void askedAndNotMade(SoftAssertions softly, String... sentences) {
    for (String said : sentences) {
      softly.assertThat(changes(said)).as(said).isEmpty();
      softly.assertThat(ChangeWords.understand(BOOK, said)).as(said).isNotEmpty();
    }
  }

  private static void each(java.util.function.Consumer<SpokenOrders> law) {
    LongStream.range(0, ORDERS).mapToObj(SpokenOrders::new).forEach(law);
    assertThat(ORDERS).isPositive();
  }

  private static List<JsonNode> children(JsonNode changes) {
    return List.copyOf(changes.values());
  }

  /** What a sentence changes, without ids; nothing where any of it is asked. */
  private static ArrayNode changes(String sentence) {
    ArrayNode all = BarMapJson.mapper().createArrayNode();
    JsonNode understood = Meaning.understood(BOOK, sentence);
    if (!understood.has("asked")) {
      understood
          .path("changes")
          .forEach(c -> all.add(((ObjectNode) c.deepCopy()).remove(List.of("id"))));
    }
    return all;
  }
}
