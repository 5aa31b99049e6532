package org.barmap.library.sql.feed;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.barmap.edit.draft.Draft;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.SerializationFeature;

/**
 * The document of an edition: the map with what is still open on it.
 *
 * @param text JSON in UTF-8; of one map always the same bytes
 */
record EditionDocument(byte[] text) {

  private static final ObjectWriter WRITER =
      BarMapJson.mapper()
          .writer()
          .without(SerializationFeature.INDENT_OUTPUT)
          .with(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS);

  /** Returns the map that is published of a draft. */
  static BarMap published(Draft draft) {
    return draft.map().withFindings(draft.open());
  }

  static EditionDocument of(Draft draft) {
    return new EditionDocument(WRITER.writeValueAsBytes(published(draft)));
  }

  static EditionDocument of(String json) {
    return new EditionDocument(json.getBytes(StandardCharsets.UTF_8));
  }

  static EditionDocument unpacked(byte[] packed) {
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
      return new EditionDocument(in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  byte[] packed() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream zip = new GZIPOutputStream(out)) {
      zip.write(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  BarMap map() {
    return BarMapJson.mapper().readValue(text, BarMap.class);
  }

  String sha256() {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(text));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
