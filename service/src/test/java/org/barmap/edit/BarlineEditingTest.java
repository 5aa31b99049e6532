package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.AddBarline;
import org.barmap.edit.kind.MoveBarline;
import org.barmap.edit.kind.RemoveBarline;
import org.barmap.edit.kind.SetBarline;
import org.barmap.edit.kind.Side;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.junit.jupiter.api.Test;

/** Barlines added, moved, removed and set, on sloped staves. */
class BarlineEditingTest extends SmallBook {

  @Test
  void aBarlineSplitsASlopedBarWhereItStands() {
    Outcome.Done done = done(new AddBarline(1, 1, 300, 260));
    List<Bar> bars = done.draft().map().bars();
    assertThat(bars).hasSize(7);
    Bar left = bars.get(0);
    Bar right = bars.get(1);
    assertThat(left.id()).isEqualTo("b1");
    assertThat(left.outline().rightMiddle().x()).isCloseTo(300, within(1.0));
    assertThat(left.outline().topRight()).isEqualTo(right.outline().topLeft());
    assertThat(left.outline().bottomRight()).isEqualTo(right.outline().bottomLeft());
    // on the lines: the staff falls by 60 over 1200 pixels
    assertThat(left.outline().topRight().y()).isCloseTo(210, within(0.5));
    assertThat(numbers(done.draft())).containsExactly(1, 2, 3, 4, 7, 8, 9);
    assertThat(left.meter().map(Meter::printed)).contains(true);
    assertThat(right.meter()).contains(new Meter(4, 4, false));
  }

  /** The book's rest of three stands from x 900 to 1300. */
  @Test
  void aBarlineInARestSharesItsBarsOut() {
    Draft byPlace = done(new AddBarline(1, 1, 1030, 290)).draft();
    assertThat(byPlace.map().bars().subList(2, 4))
        .extracting(b -> b.content() + " " + b.count())
        .containsExactly(Content.REST + " 1", Content.MULTI_REST + " 2");
    assertThat(numbers(byPlace)).containsExactly(1, 2, 3, 4, 6, 7, 8);
    Draft said = done(new AddBarline(1, 1, 1030, 290, Optional.of(2))).draft();
    assertThat(said.map().bars().subList(2, 4))
        .extracting(b -> b.content() + " " + b.count())
        .containsExactly(Content.MULTI_REST + " 2", Content.REST + " 1");
    assertThat(numbers(said)).containsExactly(1, 2, 3, 5, 6, 7, 8);
    Draft all = done(new AddBarline(1, 1, 1030, 290, Optional.of(3))).draft();
    assertThat(all.map().bars().subList(2, 4))
        .extracting(b -> b.content() + " " + b.count())
        .containsExactly(Content.MULTI_REST + " 3", Content.MUSIC + " 1");
    assertThat(refused(new AddBarline(1, 1, 1030, 290, Optional.of(4))))
        .containsExactly("Before the line stand 1 to 3 bars of the rest");
  }

  @Test
  void aBarlineBeforeTheFirstBarAndAfterTheLastClosesANewBar() {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    bars.remove(2);
    Draft open =
        Draft.of(
            new BarMap(
                BarMap.FORMAT,
                draft.map().book(),
                draft.map().pages(),
                draft.map().numbers(),
                bars,
                List.of()));
    Draft closed = done(open, new AddBarline(1, 1, 1297, 300)).draft();
    assertThat(closed.barsIn(1, 1)).hasSize(3);
    assertThat(closed.barsIn(1, 1).get(2).outline().leftMiddle().x()).isCloseTo(898, within(2.0));
  }

  @Test
  void aStrokeTakenForABarlineInARestGoes() {
    Draft joined = done(new RemoveBarline("b2", Side.END)).draft();
    Bar bar = joined.map().bar("b2").orElseThrow();
    assertThat(joined.map().bar("b3")).isEmpty();
    assertThat(bar.content()).isEqualTo(Content.MULTI_REST);
    assertThat(bar.count()).isEqualTo(3);
    assertThat(bar.outline().topRight()).isEqualTo(FIRST.topRight());
    assertThat(numbers(joined)).containsExactly(1, 2, 5, 6, 7);
  }

  @Test
  void aBarlineMovesForBothBarsAndNotPastTheNext() {
    Draft moved = done(new MoveBarline("b1", Side.END, 600, 265)).draft();
    assertThat(moved.map().bar("b1").orElseThrow().outline().topRight())
        .isEqualTo(moved.map().bar("b2").orElseThrow().outline().topLeft());
    assertThat(refused(new MoveBarline("b1", Side.END, 1000, 280)))
        .containsExactly("A barline can't be moved past the next one");
  }

  @Test
  void aBarlinesTypeIsSetOnBothItsSides() {
    Draft set = done(new SetBarline("b1", Side.END, Optional.of(Barline.REPEAT_START))).draft();
    assertThat(set.map().bar("b1").orElseThrow().endBarline()).isEqualTo(Barline.REPEAT_START);
    assertThat(set.map().bar("b2").orElseThrow().startBarline()).isEqualTo(Barline.REPEAT_START);
  }
}
