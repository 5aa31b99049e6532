package org.barmap.web.access;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Optional;
import org.barmap.library.WholeFile;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.JacksonException;

/**
 * The keys as they are kept in the data folder, readable by its owner's account only. They are kept
 * as they are, not as hashes: whoever can read this file can read the pages beside it, and a link
 * can be shown again to who lost it.
 */
record KeyFile(Path file) {

  private static final String OWN = "rw-------";

  /**
   * What is kept.
   *
   * @param format "access/1"
   * @param owner the key of who owns the data folder
   * @param ended hashes of keys that were good once, oldest first
   */
  record Kept(String format, String owner, List<Invite> invites, List<String> ended) {}

  static KeyFile in(Path folder) {
    return new KeyFile(folder.resolve("access.json"));
  }

  /**
   * Returns what is kept; empty when there is nothing yet.
   *
   * @throws IOException when it can't be read, with what to do
   */
  Optional<Kept> read() throws IOException {
    if (!Files.exists(file)) {
      return Optional.empty();
    }
    close();
    try {
      Kept kept = BarMapJson.mapper().readValue(Files.readString(file), Kept.class);
      if (kept.owner() == null || kept.owner().length() < Keys.LETTERS) {
        throw unreadable();
      }
      return Optional.of(
          new Kept(
              kept.format(),
              kept.owner(),
              Optional.ofNullable(kept.invites()).orElse(List.of()),
              Optional.ofNullable(kept.ended()).orElse(List.of())));
    } catch (JacksonException e) {
      throw unreadable();
    }
  }

  private IOException unreadable() {
    return new IOException(
        file + " holds no keys; move it away, and barmap makes new ones at its next start");
  }

  void write(Kept kept) throws IOException {
    byte[] text = BarMapJson.mapper().writeValueAsBytes(kept);
    WholeFile.copy(new ByteArrayInputStream(text), file);
    close();
  }

  /** A file that came out of a copy or a backup may be open to everybody. */
  private void close() throws IOException {
    PosixFileAttributeView rights = Files.getFileAttributeView(file, PosixFileAttributeView.class);
    if (rights != null) {
      rights.setPermissions(PosixFilePermissions.fromString(OWN));
    }
  }
}
