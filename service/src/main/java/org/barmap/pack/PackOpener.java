package org.barmap.pack;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.barmap.edit.between.MapChanges;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Pages;
import org.barmap.library.Saved;
import org.barmap.library.Settings;
import org.barmap.library.Versioned;
import org.barmap.library.WholeFile;
import org.barmap.library.feed.Edition;
import org.barmap.map.BarMap;
import org.barmap.map.Page;
import tools.jackson.databind.node.ObjectNode;

/** Puts a packed book, or a bar map alone, on the shelf: all of it or nothing. */
public final class PackOpener {

  /** The finding that a map from a score always has. */
  private static final String OF_A_SCORE = "score-left-out";

  private static final String WITHOUT = "It came without its picture; its bars are as they were";

  /** Stands in the place of the pictures of a book that came from a score. */
  public static final String FROM_SCORE =
      "This book came from a score file and has no pictures of pages";

  private static final long MOST_MAP = 64L << 20;

  /** Lies in the folder of a book that is not whole yet. */
  private static final String UNFINISHED = ".unfinished";

  private final Library library;

  /** Makes it for a library. */
  public PackOpener(Library library) {
    this.library = library;
  }

  /**
   * Opens a file.
   *
   * @throws BadPackException when it is neither a whole packed book nor a valid bar map; nothing
   *     was stored then
   */
  public BookCard open(Path file) throws BadPackException, IOException {
    byte[] head;
    try (InputStream in = Files.newInputStream(file)) {
      head = in.readNBytes(2);
    }
    if (head.length == 2 && head[0] == 'P' && head[1] == 'K') {
      try (Packed packed = Packed.open(file)) {
        return store(packed);
      }
    }
    if (Files.size(file) > MOST_MAP) {
      throw new BadPackException("it is no packed book, and too large for a bar map");
    }
    BarMap map = Packed.map(utf8(file));
    return open(map, without(map));
  }

  /** Why a page of a map has no picture: it never had one, or it came without it. */
  private static String without(BarMap map) {
    boolean score = map.findings().stream().anyMatch(f -> f.code().equals(OF_A_SCORE));
    return score ? FROM_SCORE : WITHOUT;
  }

  /**
   * Puts a bar map on the shelf whose pages have no pictures.
   *
   * @param why what stands in the place of each picture, one sentence
   */
  public BookCard open(BarMap map, String why) throws BadPackException, IOException {
    return whole(
        map.book().title(),
        map.book().part(),
        book -> {
          List<Pages.NewPage> pages = map.pages().stream().map(p -> bare(p, why)).toList();
          library.pages().add(book, pages, Optional.empty());
          lay(book, map);
        });
  }

  private static String utf8(Path file) throws BadPackException, IOException {
    try {
      return Files.readString(file, StandardCharsets.UTF_8);
    } catch (CharacterCodingException e) {
      throw new BadPackException("it is neither a packed book nor a bar map");
    }
  }

  private static Pages.NewPage bare(Page page, String why) {
    return new Pages.NewPage(page.source(), "", page.width(), page.height(), Optional.of(why));
  }

  /** Removes books whose opening was cut short, by a power cut for instance. */
  public void removeUnfinished() {
    for (BookCard book : library.books().all()) {
      if (Files.exists(library.pages().folder(book.id()).resolve(UNFINISHED))) {
        remove(book.id());
      }
    }
  }

  private void remove(String book) {
    library.books().discard(book);
    library.books().removeForGood(book);
  }

  /** What is put into a new book. */
  private interface Filling {
    void into(String book) throws BadPackException, IOException;
  }

  private BookCard whole(String title, String part, Filling filling)
      throws BadPackException, IOException {
    String book = library.books().add(title, part).id();
    boolean done = false;
    try {
      Path unfinished = library.pages().folder(book).resolve(UNFINISHED);
      Files.createFile(unfinished);
      filling.into(book);
      Files.delete(unfinished);
      done = true;
      return library.books().find(book).orElseThrow();
    } finally {
      if (!done) {
        remove(book);
      }
    }
  }

  private BookCard store(Packed packed) throws BadPackException, IOException {
    Manifest manifest = packed.manifest();
    return whole(
        manifest.title(),
        manifest.part(),
        book -> {
          List<String> ids = pages(packed, book);
          lay(book, packed.map());
          long revision = library.changes().find(book).orElseThrow().revision();
          if (!packed.changes().isEmpty()) {
            done(library.changes().take(book, revision, packed.changes()));
          }
          settings(packed, book, ids);
          editions(packed, book);
        });
  }

  /** Editions keep their numbers; whether the newest is what the book is now, is told anew. */
  private void editions(Packed packed, String book) throws BadPackException, IOException {
    long now = library.drafts().find(book).orElseThrow().revision();
    List<Manifest.Issue> all = packed.manifest().editions();
    if (all.stream().map(Manifest.Issue::number).distinct().count() < all.size()) {
      throw new BadPackException("it has two editions of one number");
    }
    for (int i = 0; i < all.size(); i++) {
      Manifest.Issue issue = all.get(i);
      String document = packed.edition(issue);
      BarMap map = Packed.map(document);
      boolean same = i == 0 && MapChanges.between(map, packed.map()).isEmpty();
      Edition edition =
          new Edition(
              issue.number(),
              issue.madeAt(),
              issue.who(),
              same ? now : 0,
              map.pages().size(),
              map.writtenBars(),
              "",
              0);
      library.feed().editions().take(book, edition, document);
    }
  }

  private List<String> pages(Packed packed, String book) throws BadPackException, IOException {
    Map<String, String> pictures = new HashMap<>();
    Map<String, String> firsts = new HashMap<>();
    List<String> ids = new ArrayList<>();
    for (Manifest.Leaf leaf : packed.manifest().pages()) {
      String id = page(packed, book, leaf, pictures, firsts);
      ids.add(id);
      Optional<String> reading = packed.reading(leaf);
      reading.ifPresent(
          text ->
              library
                  .pages()
                  .read(
                      id,
                      text,
                      leaf.picture().isPresent()
                          ? Optional.empty()
                          : Optional.of(without(packed.map()))));
    }
    List<String> now = library.pages().all(book).stream().map(PageCard::id).toList();
    if (!now.equals(ids)) {
      long revision = library.drafts().find(book).orElseThrow().revision();
      done(library.pages().order(book, revision, ids));
    }
    return ids;
  }

  private String page(
      Packed packed,
      String book,
      Manifest.Leaf leaf,
      Map<String, String> pictures,
      Map<String, String> firsts)
      throws BadPackException, IOException {
    String first = leaf.picture().map(p -> firsts.getOrDefault(p, "")).orElse("");
    if (leaf.part() > 1 && !first.isEmpty()) {
      return library.pages().addPart(book, first, leaf.part()).orElseThrow().id();
    }
    String picture = "";
    if (leaf.picture().isPresent()) {
      String name = leaf.picture().get();
      if (!pictures.containsKey(name)) {
        // a name of ours: those in the zip are somebody else's
        String file = "u" + UUID.randomUUID().toString().replace("-", "") + ".page";
        WholeFile.copy(
            new ByteArrayInputStream(packed.picture(name)),
            library.pages().folder(book).resolve(file));
        pictures.put(name, file);
      }
      picture = pictures.getOrDefault(name, "");
    }
    Optional<String> finding =
        picture.isEmpty() ? Optional.of(without(packed.map())) : Optional.empty();
    Pages.NewPage page =
        new Pages.NewPage(leaf.source(), picture, leaf.width(), leaf.height(), finding);
    String id = library.pages().add(book, List.of(page), Optional.empty()).get(0).id();
    leaf.picture().ifPresent(name -> firsts.putIfAbsent(name, id));
    return id;
  }

  private void lay(String book, BarMap map) throws BadPackException {
    done(library.readings().lay(book, library.readings().material(book), map));
  }

  private void settings(Packed packed, String book, List<String> ids) throws BadPackException {
    List<Manifest.Leaf> leaves = packed.manifest().pages();
    Map<String, String> now = new HashMap<>();
    for (int i = 0; i < leaves.size(); i++) {
      now.put(leaves.get(i).id(), ids.get(i));
    }
    Settings said = packed.settings();
    Map<String, String> moved =
        said.leaves().entrySet().stream()
            .filter(e -> now.containsKey(e.getKey()))
            .collect(Collectors.toMap(e -> now.getOrDefault(e.getKey(), ""), Map.Entry::getValue));
    Versioned<Settings> before = library.books().versionedSettings(book);
    if (!library.books().setSettings(book, before.revision(), said.withLeaves(moved))) {
      throw new BadPackException("someone set this book's settings meanwhile; open it again");
    }
  }

  /** Adds the changes of a document to a book, in one step that can be taken back. */
  public Saved<List<ObjectNode>> changes(String book, long revision, String json)
      throws BadPackException {
    return library.changes().take(book, revision, Packed.changes(json));
  }

  /** Returns the changes of a document, which is valid; nothing is stored. */
  public static List<ObjectNode> changesIn(String json) throws BadPackException {
    return Packed.changes(json);
  }

  private static <T> void done(Saved<T> saved) throws BadPackException {
    if (saved instanceof Saved.Refused<T> refused) {
      throw new BadPackException(String.join(". ", refused.reasons()));
    }
    if (saved instanceof Saved.Stale<T>) {
      throw new BadPackException("something else changed the book meanwhile; open it again");
    }
  }
}
