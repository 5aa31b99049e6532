package org.barmap.pack;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Settings;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Editions;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.ShowChanges;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Writes a book into one file. */
public final class PackWriter {

  private final Library library;
  private final BookCard book;
  private final ZipOutputStream zip;
  private final List<Manifest.File> files = new ArrayList<>();

  private PackWriter(Library library, BookCard book, ZipOutputStream zip) {
    this.library = library;
    this.book = book;
    this.zip = zip;
  }

  /**
   * Writes a book.
   *
   * @param pictures whether the pages' pictures go along: of a rented book that is a copy, which
   *     the hire agreement has to allow
   */
  public static void write(Library library, BookCard book, boolean pictures, OutputStream to)
      throws IOException {
    try (ZipOutputStream zip = new ZipOutputStream(to, StandardCharsets.UTF_8)) {
      new PackWriter(library, book, zip).all(pictures);
    }
  }

  /** Returns the JSON Schema of the manifest. */
  public static String schema() {
    return Manifest.schema();
  }

  private void all(boolean pictures) throws IOException {
    String map = BarMapJson.write(library.drafts().find(book.id()).orElseThrow().value().map());
    entry("map.barmap.json", "barmap/1", bytes(map));
    entry("changes.json", ShowChanges.FORMAT, bytes(changes()));
    entry("settings.json", "settings", bytes(BarMapJson.mapper().writeValueAsString(settings())));
    List<Manifest.Leaf> pages = new ArrayList<>();
    Map<String, String> packed = new HashMap<>();
    for (PageCard page : library.pages().all(book.id())) {
      pages.add(leaf(page, pictures, packed));
    }
    List<Manifest.Issue> issues = editions();
    Manifest manifest =
        new Manifest(
            Manifest.FORMAT,
            book.title(),
            book.part(),
            Instant.now(),
            List.copyOf(files),
            List.copyOf(pages),
            issues);
    entry(Manifest.NAME, "", bytes(BarMapJson.mapper().writeValueAsString(manifest)));
  }

  /** The book that lies beside this one is not in the pack: its name is, for who opens it. */
  private Settings settings() {
    Settings settings = library.books().settings(book.id());
    return settings.withDirector(
        settings
            .director()
            .map(
                d ->
                    new Settings.Director(
                        d.book(),
                        d.pins(),
                        library.books().find(d.book()).map(PackWriter::called).or(d::called))));
  }

  private static String called(BookCard other) {
    String part = other.part().isBlank() ? "" : ", " + other.part();
    return other.title() + part;
  }

  private List<Manifest.Issue> editions() throws IOException {
    Editions editions = library.feed().editions();
    List<Manifest.Issue> issues = new ArrayList<>();
    for (Edition one : editions.all(book.id())) {
      if (issues.size() == Manifest.MOST_EDITIONS) {
        break;
      }
      byte[] packed = editions.packed(book.id(), one.number()).orElseThrow();
      String file = "editions/" + one.number() + ".barmap.json";
      try (GZIPInputStream document = new GZIPInputStream(new ByteArrayInputStream(packed))) {
        entry(file, "barmap/1", document.readAllBytes());
      }
      issues.add(new Manifest.Issue(one.number(), one.madeAt(), one.who(), file));
    }
    return issues;
  }

  private String changes() {
    ObjectNode document = BarMapJson.mapper().createObjectNode();
    document.put("format", ShowChanges.FORMAT);
    ArrayNode list = document.putArray("changes");
    library.changes().find(book.id()).orElseThrow().value().forEach(list::add);
    return BarMapJson.mapper().writeValueAsString(document);
  }

  private Manifest.Leaf leaf(PageCard page, boolean pictures, Map<String, String> packed)
      throws IOException {
    String number = String.format(Locale.ROOT, "%03d", page.index());
    Optional<String> reading = library.pages().reading(page.id()).filter(r -> !r.isBlank());
    if (reading.isPresent()) {
      entry("readings/" + number + ".json", "reading", bytes(reading.get()));
    }
    Optional<String> picture = Optional.empty();
    if (pictures && !page.picture().isEmpty()) {
      if (!packed.containsKey(page.picture())) {
        packed.put(page.picture(), "pages/" + number);
        Path file = library.pages().picture(book.id(), page);
        entry("pages/" + number, "picture", Files.readAllBytes(file));
      }
      picture = Optional.ofNullable(packed.get(page.picture()));
    }
    return new Manifest.Leaf(
        page.id(),
        page.source(),
        page.width(),
        page.height(),
        page.part(),
        picture,
        reading.map(r -> "readings/" + number + ".json"));
  }

  private void entry(String name, String format, byte[] bytes) throws IOException {
    zip.putNextEntry(new ZipEntry(name));
    zip.write(bytes);
    zip.closeEntry();
    files.add(new Manifest.File(name, format, bytes.length, sha256(bytes)));
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  /** Returns the hash of bytes in hexadecimal. */
  static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new UncheckedIOException(new IOException(e));
    }
  }
}
