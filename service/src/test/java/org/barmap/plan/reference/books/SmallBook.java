package org.barmap.plan.reference.books;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * A small book worked out by hand: a block of {@code cases.txt}, whose head says what its lines
 * are.
 */
public record SmallBook(List<Line> lines) {

  /** A key and a value of a case. */
  public record Line(String key, String value) {}

  /** Takes a copy. */
  public SmallBook {
    lines = List.copyOf(lines);
  }

  /** Returns all there are. */
  public static List<SmallBook> all() {
    try (InputStream in =
        SmallBook.class.getResourceAsStream("/org/barmap/plan/reference/cases.txt")) {
      String text = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
      List<SmallBook> books = new ArrayList<>();
      for (String block : text.split("\\n\\s*\\n")) {
        List<Line> lines =
            block
                .lines()
                .filter(l -> !l.isBlank() && !l.startsWith("#"))
                .map(l -> l.strip().split(" ", 2))
                .map(p -> new Line(p[0], p.length > 1 ? p[1] : ""))
                .toList();
        if (!lines.isEmpty()) {
          books.add(new SmallBook(lines));
        }
      }
      return List.copyOf(books);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the values of a key. */
  List<String> all(String key) {
    return lines.stream().filter(l -> l.key().equals(key)).map(Line::value).toList();
  }

  /** Returns the book with its changes. */
  public RandomBook book() {
    return new RandomBook(all("book").get(0), all("change"), all("setting").contains("repeats"));
  }

  @Override
  public String toString() {
    return all("case").get(0);
  }
}
