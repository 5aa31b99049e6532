package org.barmap.web.site;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystemAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * Every file a browser needs to show the pages, so that it can keep one version of them whole.
 *
 * @param version of all of them together: another one whenever a byte differs
 * @param files by address, "/js/core/dom.js"
 */
record SiteFiles(String version, SortedMap<String, SiteFile> files) {

  /**
   * One file; all of them are texts.
   *
   * @param type its media type
   */
  record SiteFile(String type, String text) {}

  private static final Map<String, String> TYPES =
      Map.of(
          "js", "text/javascript; charset=utf-8",
          "css", "text/css; charset=utf-8",
          "svg", "image/svg+xml",
          "html", "text/html; charset=utf-8");

  /** The worker keeps the others and is not kept itself. */
  private static final String WORKER = "/sw.js";

  /** Returns the files of the site with the pages, which are filled frames. */
  static SiteFiles with(Map<String, String> pages) {
    SortedMap<String, SiteFile> files = new TreeMap<>();
    for (Path file : walked()) {
      String address = address(file);
      String type = TYPES.get(address.substring(address.lastIndexOf('.') + 1));
      if (type != null && !address.equals(WORKER)) {
        files.put(address, new SiteFile(type, read(file)));
      }
    }
    pages.forEach((address, html) -> files.put(address, new SiteFile(typeOf("html"), html)));
    return new SiteFiles(hash(files), files);
  }

  private static String typeOf(String ending) {
    return TYPES.getOrDefault(ending, "text/plain");
  }

  private static String address(Path file) {
    String path = file.toString().replace('\\', '/');
    return path.substring(path.lastIndexOf("/site/") + "/site".length());
  }

  private static List<Path> walked() {
    URL root = SiteFiles.class.getResource("/site/js/early.js");
    if (root == null) {
      throw new IllegalStateException("the build lacks the pages");
    }
    try {
      URI uri = root.toURI();
      // stays open: the service reads the same jar as long as it runs
      Path early = uri.getScheme().equals("jar") ? inJar(uri) : Path.of(uri);
      Path site = early.resolve("../..").normalize();
      try (Stream<Path> files = Files.walk(site)) {
        return files.filter(Files::isRegularFile).toList();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Path inJar(URI uri) throws IOException {
    String[] parts = uri.toString().split("!", 2);
    FileSystem jar;
    try {
      jar = FileSystems.newFileSystem(URI.create(parts[0]), Map.of());
    } catch (FileSystemAlreadyExistsException e) {
      jar = FileSystems.getFileSystem(URI.create(parts[0]));
    }
    return jar.getPath(parts[1]);
  }

  private static String read(Path file) {
    try {
      return Files.readString(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String hash(SortedMap<String, SiteFile> files) {
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      files.forEach(
          (address, file) ->
              sha.update((address + "\0" + file.text() + "\0").getBytes(StandardCharsets.UTF_8)));
      return HexFormat.of().formatHex(sha.digest(), 0, 8);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
