package org.barmap.work.engine;

import java.time.Duration;

/**
 * How much an engine may cost.
 *
 * @param start to get going
 * @param page for each page on top: generous, as nobody has to wait; from memory
 * @param look so often it is looked how much it has written
 * @param bytes of all files that it leaves: a score of a thousand bars has some 2 MB
 * @param files among which what it read is looked for
 * @param measures of all files together
 * @param console so many characters at the end of what it prints are kept
 */
public record EngineLimits(
    Duration start,
    Duration page,
    Duration look,
    long bytes,
    int files,
    int measures,
    int console) {

  /** What holds unless said otherwise. */
  public static final EngineLimits STANDARD =
      new EngineLimits(
          /* start= */ Duration.ofMinutes(5),
          /* page= */ Duration.ofMinutes(2),
          /* look= */ Duration.ofMillis(250),
          /* bytes= */ 128L << 20,
          /* files= */ 4_000,
          /* measures= */ 20_000,
          /* console= */ 2_000);

  /** Returns the same with another time for a whole book. */
  public EngineLimits withTime(Duration whole) {
    return new EngineLimits(whole, Duration.ZERO, look, bytes, files, measures, console);
  }

  Duration of(int pages) {
    return start.plus(page.multipliedBy(pages));
  }
}
