package org.barmap.library.feed;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * A web hook.
 *
 * @param id opaque
 * @param book whose; empty for all books
 * @param address where it is told
 * @param events of what
 * @param madeAt when it was made
 * @param off why nothing is sent to it, a plain sentence; empty while it is on
 * @param failingSince when it failed first since it was reached last; empty while it is reached
 */
public record Hook(
    String id,
    Optional<String> book,
    String address,
    List<Told> events,
    Instant madeAt,
    Optional<String> off,
    Optional<Instant> failingSince) {

  /** Takes a defensive copy. */
  public Hook {
    events = List.copyOf(events);
  }
}
