package org.barmap.library.feed;

import com.fasterxml.jackson.annotation.JsonValue;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;

/**
 * Something a hook is told, once however often it is sent.
 *
 * @param id opaque; who is told can tell by it what came twice
 * @param hook id of the hook
 * @param book whose; empty where it is about none
 * @param event what happened
 * @param edition its number, where it is about one
 * @param revision of the map, or of the changes
 * @param madeAt when it happened
 * @param state how far it is
 * @param tries how often it was sent
 * @param answer what came of the last try, a few words; empty before
 * @param triedAt when it was sent last
 */
public record Delivery(
    String id,
    String hook,
    Optional<String> book,
    Told event,
    Optional<Integer> edition,
    long revision,
    Instant madeAt,
    State state,
    int tries,
    String answer,
    Optional<Instant> triedAt) {

  /** How far a delivery is. */
  public enum State {
    /** To be sent, first or again. */
    WAITING,
    /** Being sent now, or broken off by a kill. */
    SENDING,
    /** It arrived. */
    SENT,
    /** Given up, until a person sends it again. */
    DEAD;

    /** Returns the word used in JSON and in the store. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
