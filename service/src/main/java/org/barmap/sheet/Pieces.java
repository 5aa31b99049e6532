package org.barmap.sheet;

import java.util.Optional;
import org.barmap.map.Bar;

/** Gives pieces of pages to be printed. */
@FunctionalInterface
public interface Pieces {

  /** Returns the line from a bar entry on as JPEG; empty when there is no picture of it. */
  Optional<byte[]> of(Bar bar);

  /** Returns no piece of anything. */
  static Pieces none() {
    return bar -> Optional.empty();
  }
}
