package org.barmap.plan.words.clause;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/** The words of a pit (common practice); the table is {@code lexicon.txt} beside this class. */
final class Lexicon {
  private static final Map<String, Token> WORDS = table();

  /** The longest entry has so many words. */
  private static final int MOST_WORDS = 8;

  private Lexicon() {}

  /** Returns the longest entry that begins at a place of a text. */
  static Optional<Token> at(String text, int from) {
    Optional<Token> best = Optional.empty();
    int end = from;
    for (int words = 0; words < MOST_WORDS && end < text.length(); words++) {
      end = wordEnd(text, end);
      String said = text.substring(from, end);
      Token entry = WORDS.get(said.toLowerCase(Locale.ROOT));
      if (entry != null) {
        best = Optional.of(new Token(entry.kind(), entry.value(), said));
      }
      if (end >= text.length() || text.charAt(end) != ' ') {
        break;
      }
      end++;
    }
    return best;
  }

  /** A full stop belongs to a word where the table has it: "d.c.", "rit.". */
  private static int wordEnd(String text, int from) {
    int end = from;
    while (end < text.length() && letter(text.charAt(end))) {
      end++;
    }
    int stop = end;
    while (stop < text.length() && (letter(text.charAt(stop)) || text.charAt(stop) == '.')) {
      stop++;
    }
    String dotted = text.substring(from, stop).toLowerCase(Locale.ROOT);
    return stop > end && WORDS.containsKey(dotted) ? stop : end;
  }

  private static boolean letter(char c) {
    return Character.isLetterOrDigit(c) || c == '\'' || c == '-';
  }

  private static Map<String, Token> table() {
    Map<String, Token> table = new HashMap<>();
    try (InputStream in =
        Objects.requireNonNull(Lexicon.class.getResourceAsStream("lexicon.txt"))) {
      new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(l -> !l.isBlank() && !l.startsWith("#"))
          .forEach(l -> line(l.split("\\s*;\\s*", 3), table));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Map.copyOf(table);
  }

  private static void line(String[] parts, Map<String, Token> table) {
    Token.Kind kind = Token.Kind.valueOf(parts[0].strip().toUpperCase(Locale.ROOT));
    for (String way : parts[2].split("\\s*,\\s*")) {
      table.putIfAbsent(way.strip(), new Token(kind, parts[1].strip(), way));
    }
  }
}
