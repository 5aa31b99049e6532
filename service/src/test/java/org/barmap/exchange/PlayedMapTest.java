package org.barmap.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.barmap.map.Word;
import org.barmap.plan.Books;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.junit.jupiter.api.Test;

/** The bars as they are played; counted by hand. */
class PlayedMapTest {

  @Test
  void repeatsAreWrittenOutAndCutsAreOut() {
    BarMap played = played("%7 |:1 2:| 3 4 5 6", "\"first\":\"4\",\"last\":\"5\"");

    assertThat(played.bars()).extracting(Bar::number).containsExactly(1, 2, 1, 2, 3, 6);
  }

  /** Words that send somewhere or count are false in a book that is written out. */
  @Test
  void wordsThatSendBackOrCountAreOut() {
    BarMap played =
        played(
            "%7 1@w:mf 2@fine@w:Fine |:3@w:2nd_X_only 4:|x3@w:play_3_times 5@dc@w:D.C._al_Fine",
            "\"first\":\"3\",\"last\":\"3\"");

    assertThat(played.bars())
        .flatExtracting(Bar::words)
        .extracting(Word::text)
        .isNotEmpty()
        .containsOnly("mf");
  }

  @Test
  void aBarWithBeatsOutSaysHowManyInWords() {
    BarMap one = played("%7 1 2 3 4", "\"first\":\"2 beat 4\",\"last\":\"2 beat 4\"");
    BarMap two = played("%7 1 2 3 4", "\"first\":\"2 beat 3\",\"last\":\"2 beat 4\"");

    assertThat(one.bars().get(1).words()).extracting(Word::text).containsExactly("1 beat out");
    assertThat(two.bars().get(1).words()).extracting(Word::text).containsExactly("2 beats out");
    assertThat(two.bars().get(1).meter()).contains(new Meter(2, 4, true));
    assertThat(two.bars().get(2).meter()).contains(new Meter(4, 4, false));
  }

  /** A sign that says the bar before again says another one behind a cut: then it is music. */
  @Test
  void aBarLikeTheOneBeforeIsMusicWhereAnotherOneComesBefore() {
    BarMap book = likeTheOneBefore(Books.book("%7 1 2 3 4 5 6"), 3, 5, 6);

    BarMap played = played(book, "\"first\":\"2\",\"last\":\"2\"");

    assertThat(played.bars()).extracting(Bar::number).containsExactly(1, 3, 4, 5, 6);
    assertThat(played.bars())
        .extracting(Bar::content)
        .containsExactly(
            Content.MUSIC, Content.MUSIC, Content.MUSIC, Content.BAR_REPEAT, Content.BAR_REPEAT);
  }

  private static BarMap likeTheOneBefore(BarMap map, Integer... numbers) {
    List<Integer> like = List.of(numbers);
    return BarMap.of(
        map.book(),
        map.pages(),
        map.numbers(),
        map.bars().stream()
            .map(
                b ->
                    like.contains(b.number())
                        ? b.toBuilder().content(Content.BAR_REPEAT).build()
                        : b)
            .toList());
  }

  private static BarMap played(String bars, String cut) {
    return played(Books.book(bars), cut);
  }

  private static BarMap played(BarMap map, String cut) {
    String changes =
        "{\"format\":\"changes/1\",\"changes\":[{\"id\":\"a\",\"number\":\"7\",\"kind\":\"cut\","
            + cut
            + "}]}";
    return PlayedMap.of(map, Planner.plan(map, ChangesJson.read(changes), PlanSettings.USUAL));
  }
}
