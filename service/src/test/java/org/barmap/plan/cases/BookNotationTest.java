package org.barmap.plan.cases;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.map.Origin;
import org.barmap.map.Placement;
import org.junit.jupiter.api.Test;

/** The notation of books in the trade's cases says what its README says. */
class BookNotationTest {

  private static List<Bar> bars(String notation) {
    return BookNotation.read(notation).map().bars();
  }

  @Test
  void barsAndRestsAreCounted() {
    List<Bar> bars = bars("#7'Low Tide' m2 r2 R16 % m");
    assertThat(bars).extracting(Bar::number).containsExactly(1, 2, 3, 4, 5, 21, 22);
    assertThat(bars.get(4).content()).isEqualTo(Content.MULTI_REST);
    assertThat(bars.get(4).count()).isEqualTo(16);
    assertThat(bars.get(5).content()).isEqualTo(Content.BAR_REPEAT);
  }

  @Test
  void numbersHaveTheirBarsAndTacetOnesNone() {
    BarMap map = BookNotation.read("#7'Low Tide' m2 #7A'Don''t go'! #8 m3").map();
    assertThat(map.numbers()).extracting(n -> n.label()).containsExactly("7", "7A", "8");
    assertThat(map.numbers().get(1).title()).isEqualTo("Don't go");
    assertThat(map.numbers().get(1).tacet()).isTrue();
    assertThat(map.barsOf(map.numbers().get(0))).hasSize(2);
    assertThat(map.barsOf(map.numbers().get(1))).isEmpty();
    assertThat(map.barsOf(map.numbers().get(2))).extracting(Bar::number).containsExactly(1, 2, 3);
    assertThat(map.bars().get(2).system()).isEqualTo(2);
  }

  @Test
  void repeatSignsStandAsAMapHasThem() {
    List<Bar> bars = bars("|: m2 |: m :| / |: m :|: m |]");
    assertThat(bars.get(0).startBarline()).isEqualTo(Barline.REPEAT_START);
    assertThat(bars.get(1).endBarline()).isEqualTo(Barline.REPEAT_START);
    assertThat(bars.get(2).startBarline()).isEqualTo(Barline.REPEAT_START);
    assertThat(bars.get(2).endBarline()).isEqualTo(Barline.REPEAT_END);
    assertThat(bars.get(3).startBarline()).isEqualTo(Barline.REPEAT_START);
    assertThat(bars.get(3).endBarline()).isEqualTo(Barline.REPEAT_BOTH);
    assertThat(bars.get(4).endBarline()).isEqualTo(Barline.FINAL);
    assertThat(bars("m :| |: m").get(0).endBarline()).isEqualTo(Barline.REPEAT_BOTH);
  }

  @Test
  void endingsSignsAndTimes() {
    List<Bar> bars = bars("$segno m $to-coda [1,2 m :| x3 [3 m ] m $ds $coda m $fermata $caesura");
    assertThat(bars)
        .extracting(Bar::ending)
        .containsExactly(List.of(), List.of(1, 2), List.of(3), List.of(), List.of());
    assertThat(bars.get(0).signs()).containsExactly(Navigation.SEGNO, Navigation.TO_CODA);
    assertThat(bars.get(1).times()).contains(3);
    assertThat(bars.get(3).signs()).containsExactly(Navigation.DAL_SEGNO);
    assertThat(bars.get(4).signs())
        .containsExactly(Navigation.CODA, Navigation.FERMATA, Navigation.CAESURA);
  }

  @Test
  void metersHoldOnAndKeysEndWithTheirNumber() {
    List<Bar> bars = bars("#1 4/4 k-3 m2 #2 m ~6/8 m");
    assertThat(bars.get(0).meter()).contains(new Meter(4, 4, true));
    assertThat(bars.get(1).meter()).contains(new Meter(4, 4, false));
    assertThat(bars.get(0).key()).contains(new Key(-3, true));
    assertThat(bars.get(1).key()).contains(new Key(-3, false));
    assertThat(bars.get(2).meter()).contains(new Meter(4, 4, false));
    assertThat(bars.get(2).key()).isEmpty();
    assertThat(bars.get(3).meter()).contains(new Meter(6, 8, false));
  }

  @Test
  void marksWordsLabelsAndPickups() {
    List<Bar> bars = bars("=0 m @A m @(B) _'V.S.' m @-C 'It''s  ♩ = 60' m =4A m m");
    assertThat(bars).extracting(Bar::number).containsExactly(0, 1, 2, 3, 4, 5);
    assertThat(bars.get(4).label()).contains("4A");
    assertThat(bars.get(1).rehearsal().orElseThrow().enclosure()).isEqualTo(Enclosure.BOX);
    assertThat(bars.get(2).rehearsal().orElseThrow().enclosure()).isEqualTo(Enclosure.CIRCLE);
    assertThat(bars.get(2).words().get(0).where()).isEqualTo(Placement.BELOW);
    assertThat(bars.get(3).rehearsal().orElseThrow().text()).isEqualTo("C");
    assertThat(bars.get(3).words().get(0).text()).isEqualTo("It's  ♩ = 60");
  }

  @Test
  void silenceAndHowSureTheReaderWas() {
    List<Bar> bars = bars("!read m2<2>1.5 R8?8=0.45,3=0.4 !verified m?0.4");
    assertThat(bars.get(0).silentStart()).contains(2.0);
    assertThat(bars.get(0).silentEnd()).isEmpty();
    assertThat(bars.get(1).silentEnd()).contains(1.5);
    assertThat(bars.get(2).confidence()).isEqualTo(0.45);
    assertThat(bars.get(2).evidence().orElseThrow().counts())
        .extracting(a -> a.text())
        .containsExactly("8", "3");
    assertThat(bars.get(2).origin()).isEqualTo(Origin.READ);
    assertThat(bars.get(3).origin()).isEqualTo(Origin.VERIFIED);
    assertThat(bars.get(3).confidence()).isEqualTo(0.4);
  }

  @Test
  void pagesLinesAndTheirFacts() {
    CaseBook book =
        BookNotation.read(
            "//{folio=4,picture=a} m2 / m //{picture=a,leaf=inserted} m //{unread} // m");
    assertThat(book.map().pages()).hasSize(4);
    assertThat(book.map().pages().get(0).systems()).hasSize(2);
    assertThat(book.map().pages().get(2).systems()).isEmpty();
    assertThat(book.map().pages().get(0).source()).isEqualTo(book.map().pages().get(1).source());
    assertThat(book.pages().get(0).folio()).contains(4);
    assertThat(book.pages().get(1).leaf()).isEqualTo("inserted");
    assertThat(book.pages().get(2).unread()).isTrue();
    assertThat(book.map().findings()).hasSize(1);
    assertThat(book.map().bars()).extracting(Bar::page).containsExactly(1, 1, 1, 2, 4);
  }

  @Test
  void whatIsNotUnderstoodIsSaid() {
    assertThatThrownBy(() -> BookNotation.read("m4 nonsense"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("nonsense");
    assertThatThrownBy(() -> BookNotation.read(":| m"))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> BookNotation.read("m @A"))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
