package org.barmap.plan.cases;

import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/**
 * One row of the trade's cases; {@code README.md} beside them tells what its keys mean.
 *
 * @param id unique, "words-12"
 * @param book a book in the notation of {@link BookNotation}
 * @param other the book of another chair
 * @param changes texts (words as a director says them) and objects of {@code changes/1}
 * @param settings what the player has answered; absent means that page 1 lies on the right
 * @param ask what is looked at
 * @param of of what; absent where the ask needs nothing
 * @param expect the expectation, compared by {@link Comparing}
 * @param source where the expectation comes from
 * @param why the reason in a sentence
 */
public record TradeCase(
    String id,
    String book,
    Optional<String> other,
    List<JsonNode> changes,
    Optional<JsonNode> settings,
    Ask ask,
    Optional<JsonNode> of,
    JsonNode expect,
    String source,
    Optional<String> why) {

  /** Reads absent keys as empty. */
  public TradeCase {
    other = other == null ? Optional.empty() : other;
    changes = changes == null ? List.of() : List.copyOf(changes);
    settings = settings == null ? Optional.empty() : settings;
    of = of == null ? Optional.empty() : of;
    why = why == null ? Optional.empty() : why;
  }

  /** Returns a key of what is asked about, "number", as text. */
  public String text(String key) {
    return value(key).asString();
  }

  /** Returns a key of what is asked about as a whole number. */
  public int whole(String key) {
    return value(key).asInt();
  }

  private JsonNode value(String key) {
    return of.filter(o -> o.has(key))
        .map(o -> o.get(key))
        .orElseThrow(() -> new IllegalArgumentException(id + " does not say of which " + key));
  }

  /** Tells whether a key of what is asked about is there. */
  public boolean says(String key) {
    return of.filter(o -> o.has(key)).isPresent();
  }

  @Override
  public String toString() {
    return id;
  }
}
