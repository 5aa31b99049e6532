package org.barmap.pack;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.barmap.map.json.BarMapJson;
import org.barmap.map.json.SchemaFile;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;

/**
 * What is in a packed book, {@code barpack-1.schema.json}.
 *
 * @param format {@code barpack/1}
 * @param made when
 * @param files every other entry of the zip
 * @param pages the book's pages in their order
 * @param editions the book's editions, the newest first
 */
record Manifest(
    String format,
    String title,
    String part,
    Instant made,
    List<File> files,
    List<Leaf> pages,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Issue> editions) {

  static final String FORMAT = "barpack/1";
  static final String NAME = "manifest.json";

  private static final SchemaFile SCHEMA =
      SchemaFile.load(Manifest.class, "/org/barmap/pack/barpack-1.schema.json");

  /**
   * An entry of the zip.
   *
   * @param format of what is in it: {@code barmap/1}, {@code changes/1}, {@code settings}, {@code
   *     reading}, {@code picture}
   * @param bytes unpacked
   * @param sha256 of the bytes, in hexadecimal
   */
  record File(String name, String format, long bytes, String sha256) {}

  /**
   * A page.
   *
   * @param id in the library it comes from
   * @param source name of the file it was photographed or scanned into
   * @param part 1 for the first page on its picture
   * @param picture entry with its picture, absent where pictures were left out
   * @param reading entry with what was read on it, absent where nothing was
   */
  record Leaf(
      String id,
      String source,
      int width,
      int height,
      int part,
      Optional<String> picture,
      Optional<String> reading) {}

  /** So many of the newest editions go along. */
  static final int MOST_EDITIONS = 20;

  /** Reads absent editions as none. */
  Manifest {
    editions = editions == null ? List.of() : List.copyOf(editions);
  }

  /**
   * An edition.
   *
   * @param file entry with its document
   */
  record Issue(int number, Instant madeAt, String who, String file) {}

  /** Returns the schema's text. */
  static String schema() {
    return SCHEMA.text();
  }

  static Manifest read(byte[] json) throws BadPackException {
    try {
      JsonNode tree = BarMapJson.mapper().readTree(json);
      List<String> broken = SCHEMA.check(tree);
      if (!broken.isEmpty()) {
        throw new BadPackException("its manifest is not as it has to be: " + broken.get(0));
      }
      return BarMapJson.mapper().treeToValue(tree, Manifest.class);
    } catch (JacksonException e) {
      throw new BadPackException("its manifest is no JSON: " + e.getOriginalMessage());
    }
  }
}
