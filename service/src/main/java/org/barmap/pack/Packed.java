package org.barmap.pack;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Enumeration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.barmap.library.Settings;
import org.barmap.map.BarMap;
import org.barmap.map.json.BadMapException;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.file.FileKind;
import org.barmap.plan.change.BadChangesException;
import org.barmap.plan.change.ChangesJson;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A packed book that was looked at whole: every entry is as its manifest says, every document is
 * valid. Its pictures are still in the zip.
 */
final class Packed implements AutoCloseable {

  /** The manifest names at most 1300 files and 600 pages in some hundred letters each. */
  private static final int MOST_MANIFEST = 2 << 20;

  private static final long MOST_DOCUMENT = 64L << 20;

  /** As much as the pages of a book may have together when they are uploaded. */
  private static final long MOST_ALL = 4L << 30;

  private static final int MOST_ENTRIES = 1500;

  private final ZipFile zip;
  private final Manifest manifest;
  private final BarMap map;
  private final List<ObjectNode> changes;
  private final Settings settings;

  private Packed(ZipFile zip) throws BadPackException, IOException {
    this.zip = zip;
    names();
    manifest = Manifest.read(bytes(Manifest.NAME, MOST_MANIFEST));
    sizes();
    for (Manifest.File file : manifest.files()) {
      check(file);
    }
    map = map(document("map.barmap.json"));
    changes = changes(document("changes.json"));
    settings = settings(document("settings.json"));
    pages();
  }

  /**
   * Opens a file.
   *
   * @throws BadPackException when it is not whole, or not what it says it is
   */
  static Packed open(Path file) throws BadPackException, IOException {
    ZipFile zip;
    try {
      zip = new ZipFile(file.toFile(), StandardCharsets.UTF_8);
    } catch (ZipException | IllegalArgumentException e) {
      throw new BadPackException("it is no zip, or only part of one; copy it again");
    }
    try {
      return new Packed(zip);
    } catch (ZipException e) {
      zip.close();
      throw new BadPackException("the zip is damaged; copy it again");
    } catch (BadPackException | IOException | RuntimeException e) {
      zip.close();
      throw e;
    }
  }

  Manifest manifest() {
    return manifest;
  }

  BarMap map() {
    return map;
  }

  List<ObjectNode> changes() {
    return changes;
  }

  Settings settings() {
    return settings;
  }

  /** Returns what was read on a page, as its reader wrote it. */
  Optional<String> reading(Manifest.Leaf page) throws BadPackException, IOException {
    return page.reading().isEmpty()
        ? Optional.empty()
        : Optional.of(document(page.reading().get()));
  }

  /** Returns the document of an edition, which is valid. */
  String edition(Manifest.Issue edition) throws BadPackException, IOException {
    String document = document(edition.file());
    map(document);
    return document;
  }

  /** Returns a page's picture. */
  byte[] picture(String name) throws BadPackException, IOException {
    return bytes(name, said(name).bytes());
  }

  private void names() throws BadPackException {
    int seen = 0;
    if (zip.getEntry(Manifest.NAME) == null) {
      throw new BadPackException("it is no packed book: it has no " + Manifest.NAME);
    }
    Map<String, Boolean> names = new HashMap<>();
    for (Enumeration<? extends ZipEntry> all = zip.entries(); all.hasMoreElements(); ) {
      String name = all.nextElement().getName();
      if (++seen > MOST_ENTRIES) {
        throw new BadPackException("it has more than " + MOST_ENTRIES + " entries");
      }
      if (names.put(name, true) != null) {
        throw new BadPackException("it has two entries of one name");
      }
    }
  }

  private void sizes() throws BadPackException {
    long all = 0;
    Map<String, Boolean> said = new HashMap<>(Map.of(Manifest.NAME, true));
    for (Manifest.File file : manifest.files()) {
      all += file.bytes();
      said.put(file.name(), true);
    }
    if (all > MOST_ALL) {
      throw new BadPackException("it says it unpacks to more than 4 GB");
    }
    for (Enumeration<? extends ZipEntry> e = zip.entries(); e.hasMoreElements(); ) {
      if (!said.containsKey(e.nextElement().getName())) {
        throw new BadPackException("it holds something that its manifest doesn't name");
      }
    }
  }

  private void check(Manifest.File file) throws BadPackException, IOException {
    byte[] bytes = bytes(file.name(), file.bytes());
    if (bytes.length != file.bytes() || !PackWriter.sha256(bytes).equals(file.sha256())) {
      throw new BadPackException(file.name() + " is not as it was packed; copy the file again");
    }
    if (file.format().equals("picture") && !isPicture(bytes)) {
      throw new BadPackException(file.name() + " is no picture of a page");
    }
  }

  private static boolean isPicture(byte[] bytes) {
    return FileKind.of(bytes).filter(k -> k == FileKind.PNG || k == FileKind.JPEG).isPresent();
  }

  /** Reads no more than was said: what goes on behind that is a bomb or a mistake. */
  private byte[] bytes(String name, long most) throws BadPackException, IOException {
    ZipEntry entry = zip.getEntry(name);
    if (entry == null) {
      throw new BadPackException("its " + name + " is missing");
    }
    try (InputStream in = zip.getInputStream(entry)) {
      byte[] bytes = in.readNBytes((int) Math.min(Integer.MAX_VALUE - 8, most + 1));
      if (bytes.length > most) {
        throw new BadPackException(name + " unpacks to more than it may");
      }
      return bytes;
    }
  }

  private Manifest.File said(String name) throws BadPackException {
    return manifest.files().stream()
        .filter(f -> f.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new BadPackException("its manifest doesn't name " + name));
  }

  private String document(String name) throws BadPackException, IOException {
    return new String(
        bytes(name, Math.min(MOST_DOCUMENT, said(name).bytes())), StandardCharsets.UTF_8);
  }

  static BarMap map(String json) throws BadPackException {
    try {
      return BarMapJson.read(json);
    } catch (BadMapException e) {
      throw new BadPackException("its bar map is not as it has to be: " + e.getMessage());
    }
  }

  /** Returns changes as they stand in their document, which is valid. */
  static List<ObjectNode> changes(String json) throws BadPackException {
    try {
      ChangesJson.read(json);
    } catch (BadChangesException e) {
      throw new BadPackException("its changes are not as they have to be: " + e.getMessage());
    }
    JsonNode tree = BarMapJson.mapper().readTree(BarMapJson.withoutMark(json));
    return tree.path("changes").valueStream().map(n -> (ObjectNode) n).toList();
  }

  private static Settings settings(String json) throws BadPackException {
    try {
      Settings settings = BarMapJson.mapper().readValue(json, Settings.class);
      if (settings.problems().isEmpty()) {
        return settings;
      }
      throw new BadPackException("its settings: " + settings.problems().get(0));
    } catch (JacksonException e) {
      throw new BadPackException("its settings are not as they have to be");
    }
  }

  private void pages() throws BadPackException, IOException {
    if (manifest.pages().size() != map.pages().size()) {
      throw new BadPackException("its map and its manifest have different numbers of pages");
    }
    for (Manifest.Leaf page : manifest.pages()) {
      if (page.picture().isPresent()) {
        said(page.picture().get());
      }
      Optional<String> reading = reading(page);
      try {
        reading.ifPresent(BarMapJson.mapper()::readTree);
      } catch (JacksonException e) {
        throw new BadPackException("what was read on a page is no JSON");
      }
    }
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }
}
