package org.barmap.score;

import java.nio.file.Path;
import java.util.List;
import org.barmap.map.BarMap;

/** Reads page images into a bar map; what is being evaluated. */
@FunctionalInterface
public interface Reader {

  /** Reads the pages of one book, in order. */
  BarMap read(List<Path> images);
}
