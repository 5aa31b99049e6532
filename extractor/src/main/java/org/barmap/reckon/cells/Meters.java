package org.barmap.reckon.cells;

import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;

/** Reads time signatures. */
public final class Meters {

  private static final CellSettings.Meters SET = ReckonSettings.STANDARD.cells().meters();

  /** What C stands for. */
  private static final Meter COMMON = new Meter(4, 4, true);

  /** What C with a stroke stands for. */
  private static final Meter CUT = new Meter(2, 2, true);

  private Meters() {}

  /** The most likely reading that is a meter: "4/4", "C" (4/4), "C|" (2/2). */
  public static Optional<Meter> of(Sign sign) {
    return sign.readings().stream().map(Reading::text).flatMap(t -> parse(t).stream()).findFirst();
  }

  /** Parses one text. */
  public static Optional<Meter> parse(String text) {
    if (text.equals("C")) {
      return Optional.of(COMMON);
    }
    if (text.equals("C|")) {
      return Optional.of(CUT);
    }
    if (!text.matches("\\d{1,2}/\\d{1,2}")) {
      return Optional.empty();
    }
    String[] parts = text.split("/");
    int beats = Integer.parseInt(parts[0]);
    int unit = Integer.parseInt(parts[1]);
    boolean power = unit >= 1 && unit <= SET.mostUnit() && Integer.bitCount(unit) == 1;
    return beats >= 1 && beats <= SET.mostBeats() && power
        ? Optional.of(new Meter(beats, unit, true))
        : Optional.empty();
  }
}
