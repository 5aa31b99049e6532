package org.barmap.exchange.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.util.Optional;
import java.util.Set;
import org.audiveris.proxymusic.Time;
import org.barmap.map.Meter;

/** Meters between the two worlds. */
final class Meters {
  private static final Set<Integer> UNITS = Set.of(1, 2, 4, 8, 16, 32, 64);

  private Meters() {}

  /** Returns a time signature's sum, "3+2 over 8" as 5/8; empty without one. */
  static Optional<Meter> read(Time time) {
    int sixtyFourths = 0;
    int unit = 0;
    int beats = 0;
    for (JAXBElement<String> e : time.getTimeSignature()) {
      String text = e.getValue() == null ? "" : e.getValue().strip();
      if (e.getName().getLocalPart().equals("beats")) {
        beats = sum(text);
      } else {
        int u = text.matches("\\d{1,2}") ? Integer.parseInt(text) : 0;
        if (!UNITS.contains(u) || beats < 1) {
          return Optional.empty();
        }
        unit = Math.max(unit, u);
        sixtyFourths += beats * (64 / u);
      }
    }
    int total = unit == 0 ? 0 : sixtyFourths * unit / 64;
    return total >= 1 && total <= 64 ? Optional.of(new Meter(total, unit, true)) : Optional.empty();
  }

  private static int sum(String beats) {
    if (!beats.matches("\\d{1,2}(\\s*\\+\\s*\\d{1,2}){0,7}")) {
      return 0;
    }
    int sum = 0;
    for (String term : beats.split("\\+")) {
      sum += Integer.parseInt(term.strip());
    }
    return sum;
  }
}
