package org.barmap.exchange.midi;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;

/**
 * One bar of the order of play as it is clicked.
 *
 * @param name as a player calls it, "34", "24A"
 * @param pass which time it is played
 * @param meter the meter it is written in; empty where none is known, then it is clicked as 4/4
 * @param share quarters a click lasts
 * @param quarters how long what is played of it lasts, in quarters
 * @param cutStart quarters left out at its beginning
 * @param pause a general pause: it lasts as long as the director wants and has no clicks
 * @param pace how fast it goes; empty where no tempo is known
 * @param markers what a player should see where it begins
 */
record ClickBar(
    String name,
    int pass,
    Optional<Meter> meter,
    double share,
    double quarters,
    double cutStart,
    boolean pause,
    Optional<Tempo> pace,
    List<String> markers) {

  /** Takes a defensive copy. */
  ClickBar {
    markers = List.copyOf(markers);
  }

  /** Quarters a minute at its start and its end. */
  record Tempo(double from, double to) {
    /**
     * Returns how many seconds a stretch of a bar lasts, given as shares of the way, 0 to 1: where
     * the tempo is a straight line over the quarters, the time is the integral of its inverse.
     */
    double seconds(double fromShare, double toShare, double quarters) {
      double a = from + (to - from) * fromShare;
      double b = from + (to - from) * toShare;
      boolean even = Math.abs(b - a) < 1e-9;
      return 60 * (even ? quarters / a : quarters * Math.log(b / a) / (b - a));
    }
  }

  /** Returns the same bar at a tempo. */
  ClickBar at(Tempo tempo) {
    return new ClickBar(
        name, pass, meter, share, quarters, cutStart, pause, Optional.of(tempo), markers);
  }
}
