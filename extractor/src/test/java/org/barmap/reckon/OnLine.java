package org.barmap.reckon;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/** The staff of a made line, ten pixels a staff space, and signs that stand on it. */
public final class OnLine {

  private OnLine() {}

  /** Returns one, as high as the staff. */
  public static Sign sign(
      SignKind kind, double from, double to, double probability, List<Reading> readings) {
    Outline outline = Outline.box(from * 10, 0, to * 10, 40);
    return new Sign(kind, from, to, -2, 2, outline, probability, readings, Optional.empty());
  }

  /** Returns a staff of five lines below those before it on the page. */
  public static StaffSystem staff(int index) {
    Outline outline = Outline.box(0, index * 100, 1000, index * 100 + 40);
    return new StaffSystem(index, outline, 10, Optional.empty(), 1, List.of());
  }
}
