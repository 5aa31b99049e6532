package org.barmap.work.engine;

import org.barmap.map.SecondReading;

/** What came of asking an engine. */
public sealed interface EngineOutcome {

  /** Returns what the player calls the engine. */
  String engine();

  /**
   * It read the book.
   *
   * @param part the part that is this chair's, all pages together
   */
  record Done(String engine, SecondReading.Part part) implements EngineOutcome {}

  /**
   * It did not; the book is as it would be without it.
   *
   * @param why a sentence without a full stop, that begins with its name
   */
  record Failed(String engine, String why) implements EngineOutcome {}
}
