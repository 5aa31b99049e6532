package org.barmap.plan.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.LongStream;
import org.assertj.core.api.SoftAssertions;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.words.ChangeWords;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Laws of what is understood, on sentences put together at random ({@code -Dbarmap.spoken=2000} for
 * more): the same order in other words is the same change, what only fills changes nothing, a word
 * that nobody knows is asked about, and what is not done is never done.
 */
class SpokenLawsTest {
  private static final int ORDERS = Integer.getInteger("barmap.spoken", 12);
  private static final BarMap BOOK = BookNotation.read(SpokenOrders.BOOK).map();

  @Test
  void theSameOrderInOtherWordsIsTheSameChange() {
    SoftAssertions softly = new SoftAssertions();
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
    softly.assertAll();
  }

  @Test
  void whatOnlyFillsChangesNothing() {
    SoftAssertions softly = new SoftAssertions();
    each(
        said -> {
          String way = said.next().ways().get(0);
          JsonNode plain = changes("No. 3: " + way);
          String filled = said.before() + said.about(way) + said.behind();
          softly.assertThat(changes(filled)).as(filled).isEqualTo(plain);
        });
    softly.assertAll();
  }

  @Test
  void aWordThatNobodyKnowsIsAsked() {
    SoftAssertions softly = new SoftAssertions();
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
    softly.assertAll();
  }

  @Test
  void whatIsNotDoneIsNeverDone() {
    SoftAssertions softly = new SoftAssertions();
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
    softly.assertAll();
  }

  @Test
  void aQuestionIsNoOrder() {
    SoftAssertions softly = new SoftAssertions();
    for (String question :
        List.of(
            "Do we still cut 34 in number three?",
            "Number three: should we be cutting from A to B?",
            "Are we still vamping 7 and 8 in three?",
            "Is 12 a fermata in three",
            "In three, did we cut 9 to 12?",
            "Is there a cut at B in number three?")) {
      softly.assertThat(changes(question)).as(question).isEmpty();
      softly.assertThat(ChangeWords.understand(BOOK, question)).as(question).isNotEmpty();
    }
    softly.assertAll();
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
