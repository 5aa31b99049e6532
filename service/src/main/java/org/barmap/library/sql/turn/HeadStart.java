package org.barmap.library.sql.turn;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;

/**
 * How far ahead of the others a book is put into the row that needs few turns only: whoever adds a
 * page to a book waits for no library of ten thousand, and a book that is nearly done is finished.
 * Books of one kind take turns; those with much left wait while there are others, but for the turns
 * that {@link LongWait} gives them. One that failed has lost its start: when its pause is over it
 * goes on as a book that comes then.
 */
enum HeadStart {
  /** A page, or what was photographed again of a book. */
  FEW(3, Duration.ofDays(4000)),
  /** A song's part. */
  SOME(20, Duration.ofDays(2000)),
  /** A book. */
  MANY(Integer.MAX_VALUE, Duration.ZERO);

  /** From one kind to the next. */
  private static final Duration BETWEEN = SOME.ahead;

  private final int most;

  /** Longer than any row takes to come round. */
  private final Duration ahead;

  HeadStart(int most, Duration ahead) {
    this.most = most;
    this.ahead = ahead;
  }

  /**
   * Returns where a book stands that comes now.
   *
   * @param left pages to be read, and files to be opened
   */
  static Instant place(Instant now, int left) {
    HeadStart start = Arrays.stream(values()).filter(s -> left <= s.most).findFirst().orElse(MANY);
    return start.last(now);
  }

  /** Returns where the last one of the kind stands: one that comes now. */
  Instant last(Instant now) {
    return now.minus(ahead);
  }

  /** Returns the place before all who have come within years. */
  static Instant front(Instant now) {
    return FEW.last(now).minus(BETWEEN);
  }
}
