package org.barmap.plan.change.term;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * The instruments of pit chairs by their names and by how parts abbreviate them (common practice);
 * the table is {@code instruments.txt} beside this class.
 */
public final class InstrumentNames {

  /**
   * An instrument.
   *
   * @param name in full, lower case
   * @param chair whose it usually is: bass, reed, brass, strings, guitar, keys, harp, percussion
   */
  public record Named(String name, String chair) {}

  /** Names have no more words than this. */
  static final int MOST_WORDS = 4;

  private static final Map<String, Named> BY_ALIAS = table();

  private InstrumentNames() {}

  /**
   * Returns the instrument that words call for and nothing else, its name in full.
   *
   * @param chair whose words they are, as {@link #chairOf} returns it: "electric" alone is the
   *     electric one of what the chair plays
   */
  public static Optional<String> read(String words, String chair) {
    return InstrumentCall.read(words, "")
        .filter(c -> c.names().size() == 1 && c.rest().isBlank())
        .map(c -> c.names().get(0))
        .or(() -> InstrumentCall.oneOfTwo(InstrumentCall.plain(words), chair));
  }

  /** Returns the chair of a part by its name, "Double Bass / Electric Bass"; empty when unknown. */
  public static String chairOf(String part) {
    String first = InstrumentCall.plain(part.split("[/,&+(]", 2)[0].replaceFirst("\\s+\\d+$", ""));
    return chair(first).orElse(first.equals("bass") ? first : "");
  }

  /** Returns the name in full of an instrument however it is written; as it is when unknown. */
  public static String full(String said) {
    return named(InstrumentCall.plain(said)).map(Named::name).orElse(said.toLowerCase(Locale.ROOT));
  }

  /** Returns whose instrument it usually is; empty for one that isn't in the table. */
  public static Optional<String> chair(String name) {
    return named(InstrumentCall.plain(name)).map(Named::chair);
  }

  /** Looks up words in lower case with single blanks between them. */
  static Optional<Named> named(String plain) {
    return Optional.ofNullable(BY_ALIAS.get(plain));
  }

  private static Map<String, Named> table() {
    Map<String, Named> table = new HashMap<>();
    try (InputStream in =
        Objects.requireNonNull(InstrumentNames.class.getResourceAsStream("instruments.txt"))) {
      new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(l -> !l.isBlank() && !l.startsWith("#"))
          .forEach(l -> line(l.split("\\s*;\\s*"), table));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Map.copyOf(table);
  }

  private static void line(String[] parts, Map<String, Named> table) {
    Named named = new Named(parts[1], parts[0]);
    table.putIfAbsent(InstrumentCall.plain(parts[1]), named);
    for (String way : parts[2].split("\\s*,\\s*")) {
      List<String> written = List.of("");
      for (String word : way.split(" ")) {
        List<String> longer = new ArrayList<>();
        for (String before : written) {
          for (String one : word.split("/")) {
            longer.add((before + " " + one).strip());
          }
        }
        written = longer;
      }
      written.forEach(w -> table.putIfAbsent(w, named));
    }
  }
}
