package org.barmap.web.access;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.barmap.library.WholeFile;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.SerializationFeature;

/**
 * Who was given pictures of a book's pages: a bounded list for each book, in a file of lines of
 * JSON. When, what the key is called and which page; nothing else of who looked.
 */
public final class PictureLog {

  /** Kept of everybody but the owner, whose own looks would push the others out. */
  private static final int MOST_OF_GUESTS = 500;

  private static final int MOST_OF_OWNER = 100;

  /** Who turns back to a page within it has looked once. */
  private static final Duration ONCE = Duration.ofHours(1);

  /** Books whose list is in memory. */
  private static final int BOOKS = 50;

  /**
   * Somebody was given a picture.
   *
   * @param who what the key is called
   * @param owner it was the owner of the data folder
   * @param page id of the page; empty for several of them
   * @param what image, crop, sheets or pack
   */
  public record Look(Instant at, String who, boolean owner, String page, String what) {
    private boolean isSame(Look other) {
      return who.equals(other.who) && page.equals(other.page) && what.equals(other.what);
    }
  }

  private final Path folder;
  private final InstantSource clock;
  private final Map<String, List<Look>> books =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, List<Look>> eldest) {
          return size() > BOOKS;
        }
      };

  /**
   * Knows what was kept before.
   *
   * @param folder the data folder
   */
  public PictureLog(Path folder, InstantSource clock) {
    this.folder = folder.resolve("looks");
    this.clock = clock;
  }

  /**
   * Writes down that somebody was given a picture.
   *
   * @throws UncheckedIOException when it can't be written down
   */
  public synchronized void add(String book, Who who, String page, String what) {
    Look look = new Look(clock.instant(), who.name(), who instanceof Who.Owner, page, what);
    List<Look> looks = looks(book);
    Instant since = look.at().minus(ONCE);
    if (looks.stream().anyMatch(l -> l.isSame(look) && l.at().isAfter(since))) {
      return;
    }
    looks.add(look);
    try {
      if (cut(looks)) {
        String lines = String.join("", looks.stream().map(PictureLog::line).toList());
        WholeFile.copy(bytes(lines), file(book));
      } else {
        append(file(book), line(look));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns who was given pictures of a book, oldest first. */
  public synchronized List<Look> of(String book) {
    return List.copyOf(looks(book));
  }

  /** Removes the lists of books that are gone. */
  public synchronized void keepOnly(Predicate<String> there) {
    if (!Files.isDirectory(folder)) {
      return;
    }
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        String name = file.getFileName().toString();
        String book = name.replaceFirst("\\.jsonl$", "");
        if (!book.equals(name) && !there.test(book)) {
          books.remove(book);
          Files.deleteIfExists(file);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Takes the oldest ones away, some at once, so that the file is seldom written anew. */
  private static boolean cut(List<Look> looks) {
    boolean cut = false;
    for (boolean owner : new boolean[] {true, false}) {
      int most = owner ? MOST_OF_OWNER : MOST_OF_GUESTS;
      List<Look> theirs = looks.stream().filter(l -> l.owner() == owner).toList();
      if (theirs.size() > most + most / 5) {
        looks.removeAll(theirs.subList(0, theirs.size() - most));
        cut = true;
      }
    }
    return cut;
  }

  private List<Look> looks(String book) {
    return books.computeIfAbsent(book, this::read);
  }

  private List<Look> read(String book) {
    List<Look> looks = new ArrayList<>();
    Path file = file(book);
    if (!Files.exists(file)) {
      return looks;
    }
    try {
      for (String line : Files.readAllLines(file)) {
        parsed(line).ifPresent(looks::add);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    looks.sort(Comparator.comparing(Look::at));
    return looks;
  }

  /** A line that a power cut broke off says nothing. */
  private static Optional<Look> parsed(String line) {
    try {
      return Optional.of(BarMapJson.mapper().readValue(line, Look.class));
    } catch (JacksonException e) {
      return Optional.empty();
    }
  }

  private static String line(Look look) {
    return BarMapJson.mapper()
            .writer()
            .without(SerializationFeature.INDENT_OUTPUT)
            .writeValueAsString(look)
        + "\n";
  }

  private static ByteArrayInputStream bytes(String text) {
    return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
  }

  private static void append(Path file, String line) throws IOException {
    if (!Files.exists(file)) {
      // made as every file of the folder is: for its owner's account only
      WholeFile.copy(bytes(line), file);
      return;
    }
    Files.writeString(file, line, StandardOpenOption.APPEND);
  }

  private Path file(String book) {
    return folder.resolve(book.replaceAll("[^\\w-]", "_") + ".jsonl");
  }
}
