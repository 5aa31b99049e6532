package org.barmap.fit;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.extract.Extractor;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.sign.ReadPage;
import org.barmap.sign.SignReader;
import org.barmap.sign.StoredPage;
import tools.jackson.databind.JsonNode;

/**
 * The pages of the corpus with their truths and what is read on them.
 *
 * <p>Reading takes a minute or more, so what was read is kept in {@code target/readings} of this
 * module under a name made of the picture, the models and the classes that read.
 */
final class CorpusReadings {

  /** The corpus module's folder. */
  static final Path HOME =
      Path.of(System.getProperty("barmap.home", "..")).resolve("corpus").toAbsolutePath();

  private static final Path MODULE = HOME.resolve("workbench");

  /** Where what is measured is kept, among the sources. */
  static final Path KEPT = MODULE.resolve("src/main/resources/org/barmap/fit");

  /**
   * One page.
   *
   * @param name of its files
   * @param engraver that set it
   * @param kind clean, scan, photo or pencil
   * @param seed it was made from
   * @param truth its map
   * @param read what was read; no system where the page could not be read
   */
  record Labelled(
      String name, String engraver, String kind, long seed, JsonNode truth, ReadPage read) {}

  private CorpusReadings() {}

  /** Returns a file or folder below this module's {@code target}, which is made. */
  static Path target(String name) throws IOException {
    return Files.createDirectories(MODULE.resolve("target")).resolve(name);
  }

  /** All truths of one page each, sorted by name; openings photographed at once are left out. */
  static List<Path> truths() throws IOException {
    try (Stream<Path> files = Files.list(HOME.resolve("pages"))) {
      List<Path> out = new ArrayList<>();
      for (Path file : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        if (BarMapJson.mapper().readTree(Files.readString(file)).path("pages").size() == 1) {
          out.add(file);
        }
      }
      return out;
    }
  }

  /**
   * Returns the truths of pages that aren't half charts: readings that are made up from a truth
   * know nothing of slashes and of what stands over them. With such pages in, one clean page is
   * asked about and a second reading no longer helps; why is not known yet. Pages with staves of
   * one line came later; nothing was fitted with them either.
   */
  static List<Path> plainTruths() throws IOException {
    return truths().stream()
        .filter(f -> !f.getFileName().toString().matches("(charts|line1)-.*"))
        .toList();
  }

  /** Reads every page, or takes what was kept. */
  static List<Labelled> all() throws IOException {
    List<Labelled> out = new ArrayList<>();
    String reader = reader();
    Path kept = Files.createDirectories(target("readings"));
    try (Lazy lazy = new Lazy()) {
      for (Path file : truths()) {
        JsonNode truth = BarMapJson.mapper().readTree(Files.readString(file));
        String name = file.getFileName().toString().replace(".json", "");
        Path picture = file.resolveSibling(truth.at("/pages/0/source").asString());
        Path cached = kept.resolve(name + "-" + hash(reader, Files.readAllBytes(picture)));
        if (!Files.exists(cached)) {
          Files.writeString(cached, StoredPage.write(lazy.read(picture)));
        }
        JsonNode about = truth.path("corpus");
        out.add(
            new Labelled(
                name,
                about.path("engraver").asString().split(" ", 2)[0],
                about.path("kind").asString(),
                about.path("seed").asLong(),
                truth,
                StoredPage.read(Files.readString(cached), 1)));
      }
    }
    return out;
  }

  /** Reads one picture, whatever was kept. */
  static ReadPage read(Path picture) {
    try (Lazy lazy = new Lazy()) {
      return lazy.read(picture);
    }
  }

  /** Opens the models when the first page has to be read. */
  private static final class Lazy implements AutoCloseable {
    private final List<Extractor> open = new ArrayList<>();

    ReadPage read(Path picture) {
      if (open.isEmpty()) {
        open.add(Extractor.open());
      }
      try (PageSource source = new PageSource(List.of(picture))) {
        PageResult result = source.next();
        return result instanceof PageResult.Loaded loaded
            ? open.get(0).readPage(loaded.page(), 1, new ArrayList<>())
            : new ReadPage(1, picture.getFileName().toString(), 1, 1, List.of());
      }
    }

    @Override
    public void close() {
      open.forEach(Extractor::close);
    }
  }

  /** Everything the reading depends on but the picture. */
  private static String reader() throws IOException {
    Path code =
        Path.of(SignReader.class.getProtectionDomain().getCodeSource().getLocation().getPath());
    if (Files.isDirectory(code)) {
      return reader(code);
    }
    try (FileSystem jar = FileSystems.newFileSystem(code)) {
      return reader(jar.getPath("/"));
    }
  }

  private static String reader(Path classes) throws IOException {
    List<byte[]> parts = new ArrayList<>();
    for (String place : List.of("page", "staff", "sign")) {
      try (Stream<Path> walk = Files.walk(classes.resolve("org/barmap").resolve(place))) {
        for (Path file : walk.filter(Files::isRegularFile).sorted().toList()) {
          parts.add(Files.readAllBytes(file));
        }
      }
    }
    return hash("", parts.toArray(byte[][]::new));
  }

  private static String hash(String salt, byte[]... parts) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update(salt.getBytes(StandardCharsets.UTF_8));
      for (byte[] part : parts) {
        digest.update(part);
      }
      return HexFormat.of().formatHex(digest.digest(), 0, 8);
    } catch (NoSuchAlgorithmException e) {
      throw new UncheckedIOException(new IOException(e));
    }
  }
}
