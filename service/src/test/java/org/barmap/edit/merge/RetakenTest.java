package org.barmap.edit.merge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Settled;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;
import org.junit.jupiter.api.Test;

/** What of a page's corrections is carried over to a new picture of it. */
class RetakenTest {

  private static final double[] THREE = {0.3, 0.6, 1};
  private static final double[] FOUR = {0.3, 0.6, 0.8, 1};

  /** A page of systems with barlines at these shares of their width; scale 1: 1000 by 1400. */
  private static BarMap page(String ids, double scale, double shift, double[]... lines) {
    List<StaffSystem> systems = new ArrayList<>();
    List<Bar> bars = new ArrayList<>();
    for (double[] ends : lines) {
      int index = systems.size() + 1;
      double top = (300.0 * index + shift) * scale;
      double left = (100 + shift) * scale;
      double width = 800 * scale;
      Outline whole = Outline.box(left, top, left + width, top + 80 * scale);
      systems.add(new StaffSystem(index, whole, 20 * scale, Optional.empty(), 1, List.of()));
      double from = 0;
      for (double to : ends) {
        Outline box =
            Outline.box(left + from * width, top, left + to * width, top + 80 * scale).rounded();
        bars.add(
            Bar.builder(ids + (bars.size() + 1), 1, index, box).number(bars.size() + 1).build());
        from = to;
      }
    }
    Page page = new Page(1, ids + ".png", (int) (1000 * scale), (int) (1400 * scale), systems);
    return BarMap.of(new Book("Saltmarsh", "Bass"), List.of(page), List.of(), bars);
  }

  /** The old page, on which a person has set the rest in a bar. */
  private static Draft corrected(BarMap map, String bar) {
    List<Bar> bars =
        map.bars().stream()
            .map(b -> b.id().equals(bar) ? b.toBuilder().count(7).build() : b)
            .toList();
    return Draft.of(map.withBars(bars)).with(Settled.NOTHING.with(bar, Set.of(Aspect.COUNT)));
  }

  private static Bar bar(Retaken taken, String id) {
    return taken.draft().map().bar(id).orElseThrow();
  }

  @Test
  void theSameBarsInOtherPixelsKeepIdsAndCorrections() {
    Draft old = corrected(page("a", 1, 0, THREE, THREE), "a5");
    BarMap fresh = page("b", 2.5, 40, THREE, THREE);
    Retaken taken = Retaken.read(old, 1, fresh);
    assertThat(taken.lost()).isZero();
    assertThat(taken.draft().map().bars())
        .extracting(Bar::id)
        .containsExactly("a1", "a2", "a3", "a4", "a5", "a6");
    assertThat(bar(taken, "a5").count()).isEqualTo(7);
    assertThat(bar(taken, "a6").number()).isEqualTo(12);
    assertThat(bar(taken, "a5").outline()).isEqualTo(fresh.bars().get(4).outline());
    assertThat(taken.draft().settled().has("a5", Aspect.COUNT)).isTrue();
    assertThat(taken.draft().map().pages()).isEqualTo(fresh.pages());
  }

  @Test
  void aBarMoreInTheLineMatchesTheOthersByTheirPlace() {
    Draft old = corrected(page("a", 1, 0, THREE, THREE), "a5");
    Retaken taken = Retaken.read(old, 1, page("b", 2, 10, THREE, FOUR));
    assertThat(taken.lost()).isZero();
    assertThat(taken.draft().map().bars()).hasSize(7);
    assertThat(bar(taken, "a5").count()).isEqualTo(7);
    assertThat(taken.draft().map().indexOf("a5")).isEqualTo(4);
  }

  @Test
  void whatHasNoCounterpartIsCounted() {
    Draft old = corrected(page("a", 1, 0, THREE, FOUR), "a6");
    Retaken taken = Retaken.read(old, 1, page("b", 1, 0, THREE, new double[] {0.15, 1}));
    assertThat(taken.lost()).isEqualTo(1);
    assertThat(taken.draft().settled().bars()).doesNotContainKey("a6");
    assertThat(taken.draft().map().bars()).hasSize(5).allMatch(b -> b.count() == 1);
  }

  @Test
  void ofASystemLessTheOthersMatchByTheirHeight() {
    BarMap map = page("a", 1, 0, THREE, THREE, THREE);
    BarMap fresh = page("b", 2, 0, THREE, THREE);
    Retaken first = Retaken.read(corrected(map, "a2"), 1, fresh);
    assertThat(first.lost()).isZero();
    assertThat(bar(first, "a2").count()).isEqualTo(7);
    Retaken last = Retaken.read(corrected(map, "a8"), 1, fresh);
    assertThat(last.lost()).isEqualTo(1);
    assertThat(last.draft().map().bars()).hasSize(6).allMatch(b -> b.count() == 1);
  }

  @Test
  void aRemovedSystemStaysRemoved() {
    BarMap map = page("a", 1, 0, THREE, THREE, THREE);
    Page page = map.pages().get(0);
    StaffSystem s = page.systems().get(2);
    StaffSystem third =
        new StaffSystem(2, s.outline(), s.staffSpace(), Optional.empty(), 1, List.of());
    Page less = new Page(1, page.source(), 1000, 1400, List.of(page.systems().get(0), third));
    List<Bar> bars =
        map.bars().stream()
            .filter(b -> b.system() != 2)
            .map(b -> b.system() == 3 ? b.toBuilder().system(2).build() : b)
            .toList();
    Outline wrong = page.systems().get(1).outline();
    Draft old =
        Draft.of(BarMap.of(map.book(), List.of(less), List.of(), bars))
            .with(
                Settled.NOTHING
                    .with("a8", Set.of(Aspect.SHAPE))
                    .withRemovedSystems(List.of(new Settled.RemovedSystem(1, wrong))));
    BarMap fresh = page("b", 2, 30, THREE, THREE, THREE);
    Retaken taken = Retaken.read(old, 1, fresh);
    assertThat(taken.lost()).isZero();
    assertThat(taken.draft().map().bars())
        .extracting(Bar::id)
        .containsExactly("a1", "a2", "a3", "a7", "a8", "a9");
    assertThat(taken.draft().settled().removedSystems())
        .containsExactly(
            new Settled.RemovedSystem(1, fresh.pages().get(0).systems().get(1).outline()));
  }

  @Test
  void aPageStaysVerifiedOnlyWithAsManyBars() {
    Draft checked = corrected(page("a", 1, 0, THREE, THREE), "a5");
    Draft old = checked.with(checked.settled().withVerifiedPages(Set.of(1)));
    Retaken same = Retaken.read(old, 1, page("b", 2, 0, THREE, THREE));
    assertThat(same.draft().settled().verifiedPages()).containsExactly(1);
    assertThat(bar(same, "a5").count()).isEqualTo(7);
    Retaken more = Retaken.read(old, 1, page("b", 2, 0, THREE, FOUR));
    assertThat(more.draft().settled().verifiedPages()).isEmpty();
    assertThat(bar(more, "a5").count()).isEqualTo(7);
  }
}
