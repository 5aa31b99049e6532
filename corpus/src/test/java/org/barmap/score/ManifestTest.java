package org.barmap.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The labelled pages are those the manifest pins, byte for byte, and no others. */
class ManifestTest {
  private static final Path CORPUS = Path.of(System.getProperty("barmap.home", ".."), "corpus");

  @Test
  void everyFileIsListedWithItsHashAndNoneIsMissing() throws Exception {
    JsonNode manifest =
        BarMapJson.mapper().readTree(Files.readString(CORPUS.resolve("manifest.json")));
    Map<String, String> listed = new TreeMap<>();
    for (JsonNode page : manifest.path("pages")) {
      listed.put(page.path("file").asString(), page.path("sha256").asString());
      listed.put(page.path("truth").asString(), page.path("truthSha256").asString());
    }
    assertThat(listed).hasSizeGreaterThanOrEqualTo(240);
    Map<String, String> there = new TreeMap<>();
    try (Stream<Path> files = Files.list(CORPUS.resolve("pages"))) {
      for (Path file : files.toList()) {
        String name = file.getFileName().toString();
        if (!name.endsWith(".md")) {
          there.put("pages/" + name, hash(file));
        }
      }
    }
    assertThat(there).isEqualTo(listed);
  }

  private static String hash(Path file) throws IOException, GeneralSecurityException {
    return HexFormat.of()
        .formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file)));
  }
}
