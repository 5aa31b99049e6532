package org.barmap.plan.reference.books;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.BarMap;
import tools.jackson.databind.JsonNode;

/**
 * A book and its changes in the notation of {@code cases.txt}.
 *
 * @param book see {@link Notation}
 * @param changes see {@link ChangeNotation}
 * @param repeatsAfterJump the player's setting
 */
public record RandomBook(String book, List<String> changes, boolean repeatsAfterJump) {

  /** Takes a copy. */
  public RandomBook {
    changes = List.copyOf(changes);
  }

  /** Returns the book as a map. */
  public BarMap map() {
    return Notation.book(book);
  }

  /** Returns the changes as they stand in a {@code changes/1} document, "c1" first. */
  public List<JsonNode> json() {
    List<JsonNode> nodes = new ArrayList<>();
    for (String change : changes) {
      nodes.add(ChangeNotation.change("c" + (nodes.size() + 1), change));
    }
    return nodes;
  }

  /** Writes it as a case of {@code cases.txt}. */
  @Override
  public String toString() {
    StringBuilder text = new StringBuilder("book ").append(book).append('\n');
    changes.forEach(c -> text.append("change ").append(c).append('\n'));
    return text.append(repeatsAfterJump ? "setting repeats\n" : "").toString();
  }
}
