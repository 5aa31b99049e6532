package org.barmap.plan.change;

import java.util.Optional;

/** A change that covers bars from a first to a last one, both included. */
public sealed interface Ranged extends ShowChange
    permits ShowChange.Cut, ShowChange.Vamp, ShowChange.Safety, ShowChange.Play, ShowChange.Beats {

  /** Returns the address of the first bar. */
  String first();

  /** Returns the address of the last bar. */
  String last();

  @Override
  default Optional<String> firstAddress() {
    return Optional.of(first());
  }

  @Override
  default Optional<String> lastAddress() {
    return Optional.of(last());
  }
}
