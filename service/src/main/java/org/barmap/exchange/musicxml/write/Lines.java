package org.barmap.exchange.musicxml.write;

import java.util.Optional;
import org.audiveris.proxymusic.BarStyle;
import org.audiveris.proxymusic.BarStyleColor;
import org.barmap.map.Barline;

/** What the barlines of a map are in MusicXML. */
final class Lines {

  private Lines() {}

  /** Returns the style a right barline is drawn with; empty for a single line. */
  static Optional<BarStyle> style(Barline barline) {
    return switch (barline) {
      case NONE -> Optional.of(BarStyle.NONE);
      case SINGLE, REPEAT_START -> Optional.empty();
      case DOUBLE -> Optional.of(BarStyle.LIGHT_LIGHT);
      case FINAL, REPEAT_END, REPEAT_BOTH -> Optional.of(BarStyle.LIGHT_HEAVY);
      case DASHED -> Optional.of(BarStyle.DASHED);
    };
  }

  /** Returns a style as the binding wants it. */
  static BarStyleColor drawn(BarStyle style) {
    BarStyleColor drawn = new BarStyleColor();
    drawn.setValue(style);
    return drawn;
  }
}
