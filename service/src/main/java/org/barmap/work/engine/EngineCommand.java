package org.barmap.work.engine;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How an engine is started.
 *
 * @param name what the player calls it
 * @param words the program and its arguments; {@code {pages}} and {@code {out}} in them stand for
 *     the folders
 */
public record EngineCommand(String name, List<String> words) {

  private static final String PAGES = "{pages}";
  private static final String OUT = "{out}";

  /** What may stand before a command to name it. */
  private static final Pattern NAMED =
      Pattern.compile("(?s)([\\p{L}\\p{N}][\\p{L}\\p{N}._-]{0,39})=(.*)");

  private static final Pattern FOLDER = Pattern.compile("\\{(pages|out)}");

  /** Takes a defensive copy. */
  public EngineCommand {
    words = List.copyOf(words);
  }

  /** Tells whether a text is a command; else it is the name of a plugin. */
  public static boolean isCommand(String text) {
    return text.contains(PAGES) || text.contains(OUT);
  }

  /**
   * Understands a command, {@code PROGRAM {pages} {out}} or {@code NAME=PROGRAM {pages} {out}}. It
   * is cut into words as a shell cuts them, with quotes and backslashes; no shell runs it, so
   * nothing else has a meaning.
   *
   * @throws IllegalArgumentException says what is wrong with it
   */
  public static EngineCommand of(String text) {
    Matcher named = NAMED.matcher(text.strip());
    boolean hasName = named.matches();
    List<String> words = words(hasName ? named.group(2) : text);
    if (words.isEmpty() || words.get(0).isBlank()) {
      throw new IllegalArgumentException("name the program that reads");
    }
    if (words.stream().noneMatch(w -> w.contains(PAGES))
        || words.stream().noneMatch(w -> w.contains(OUT))) {
      throw new IllegalArgumentException(
          "the command needs {pages}, the folder it reads, and {out}, the folder it writes into");
    }
    Path program = Path.of(words.get(0)).getFileName();
    return new EngineCommand(
        hasName ? named.group(1).strip() : program == null ? words.get(0) : program.toString(),
        words);
  }

  /** Returns what is run. */
  List<String> with(Path pages, Path out) {
    return words.stream()
        .map(
            w ->
                FOLDER
                    .matcher(w)
                    .replaceAll(
                        m ->
                            Matcher.quoteReplacement(
                                (m.group(1).equals("out") ? out : pages).toString())))
        .toList();
  }

  private static List<String> words(String text) {
    List<String> words = new ArrayList<>();
    StringBuilder word = new StringBuilder();
    boolean open = false;
    char quote = 0;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean escapes = c == '\\' && quote != '\'' && i + 1 < text.length();
      if (escapes && (quote == 0 || text.charAt(i + 1) == quote || text.charAt(i + 1) == '\\')) {
        word.append(text.charAt(++i));
        open = true;
      } else if (quote != 0) {
        quote = c == quote ? 0 : quote;
        word.append(quote == 0 ? "" : String.valueOf(c));
      } else if (c == '\'' || c == '"') {
        quote = c;
        open = true;
      } else if (!Character.isWhitespace(c)) {
        word.append(c);
        open = true;
      } else if (open) {
        words.add(word.toString());
        word.setLength(0);
        open = false;
      }
    }
    if (quote != 0) {
      throw new IllegalArgumentException("a quote is not closed: " + quote);
    }
    if (open) {
      words.add(word.toString());
    }
    return words;
  }
}
