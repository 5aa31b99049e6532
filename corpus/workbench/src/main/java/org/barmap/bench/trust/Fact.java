package org.barmap.bench.trust;

import java.util.Optional;

/**
 * Something a service holds, as its acknowledgements say; and what it may hold instead, for what
 * was asked of it last has had no answer.
 */
final class Fact<T> {

  private T sure;
  private Optional<T> perhaps = Optional.empty();

  Fact(T sure) {
    this.sure = sure;
  }

  T sure() {
    return sure;
  }

  /** Tells whether a request about it has had no answer. */
  boolean isUnsure() {
    return perhaps.isPresent();
  }

  /** What it is going to be, if the request that is sent now is done. */
  void expect(T next) {
    perhaps = Optional.of(next);
  }

  /** The request was acknowledged. */
  void done() {
    sure = perhaps.orElse(sure);
    perhaps = Optional.empty();
  }

  /** The request was refused. */
  void refused() {
    perhaps = Optional.empty();
  }

  /** Looks what became of it: false when it is neither. */
  boolean isSeen(T seen) {
    boolean known = seen.equals(sure) || perhaps.filter(seen::equals).isPresent();
    // what is lost is told once
    sure = seen;
    perhaps = Optional.empty();
    return known;
  }
}
