package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

class JoinedStavesTest {

  private static Sign sign(SignKind kind, double at, double probability) {
    return new Sign(
        kind,
        at - .5,
        at + .5,
        -2,
        2,
        Outline.box(0, 0, 1, 1),
        probability,
        List.of(),
        Optional.empty());
  }

  @Test
  void aBarlineIsAsLikelyAsTheStavesAgree() {
    List<Sign> joined =
        JoinedStaves.join(
            List.of(
                List.of(sign(SignKind.BARLINE, 20, .9), sign(SignKind.BARLINE, 40, .8)),
                List.of(sign(SignKind.BARLINE, 20.4, .7))));
    assertThat(joined).hasSize(2);
    assertThat(joined.get(0).probability()).isCloseTo(.8, within(1e-9));
    assertThat(joined.get(1).probability()).isCloseTo(.4, within(1e-9));
  }

  @Test
  void theBarRestsOnlyWhereEveryStaffDoes() {
    List<Sign> both =
        JoinedStaves.join(
            List.of(List.of(sign(SignKind.REST, 30, .9)), List.of(sign(SignKind.REST, 32, .8))));
    assertThat(both).hasSize(1);
    assertThat(both.get(0).probability()).isCloseTo(.8, within(1e-9));
    assertThat(JoinedStaves.join(List.of(List.of(sign(SignKind.REST, 30, .9)), List.of())))
        .isEmpty();
  }

  @Test
  void aMarkOverTheSystemCountsOnce() {
    List<Sign> joined =
        JoinedStaves.join(
            List.of(
                List.of(sign(SignKind.REHEARSAL, 50, .9)),
                List.of(sign(SignKind.REHEARSAL, 50.3, .6), sign(SignKind.METER, 10, .9))));
    assertThat(joined).extracting(Sign::kind).containsExactly(SignKind.METER, SignKind.REHEARSAL);
  }

  @Test
  void oneStaffStaysAsItIs() {
    List<Sign> own = List.of(sign(SignKind.BARLINE, 20, .3));
    assertThat(JoinedStaves.join(List.of(own))).isSameAs(own);
  }
}
