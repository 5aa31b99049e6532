package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.barmap.map.Point;
import org.junit.jupiter.api.Test;

class StaffTest {

  /** A staff of 10 pixels a space that falls by one pixel in ten. */
  private static Staff sloped() {
    double[] middle = new double[251];
    double[] space = new double[251];
    for (int i = 0; i < middle.length; i++) {
      middle[i] = 300 + 0.1 * Staff.STEP * i;
      space[i] = 10;
    }
    return new Staff(100, 1100, middle, space, 0.02);
  }

  @Test
  void aPartLiesWhereTheWholeDoes() {
    Staff whole = sloped();
    Staff part = whole.from(17.3);
    assertThat(part.length()).isCloseTo(whole.length() - 17.3, within(1e-6));
    assertThat(part.right()).isEqualTo(whole.right());
    for (double along = 0; along < part.length(); along += 5) {
      Point own = part.at(along, -2);
      assertThat(own.distance(whole.at(along + 17.3, -2))).isLessThan(1e-6);
    }
  }
}
