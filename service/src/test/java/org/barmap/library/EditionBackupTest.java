package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Editions;
import org.barmap.library.sqlite.SqliteBackup;
import org.barmap.library.sqlite.SqliteLibrary;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A backup has every edition as it was. */
class EditionBackupTest extends WithBook {

  @Test
  void aBackupHasThem(@TempDir Path elsewhere) throws IOException {
    if (store() != Stores.SQLITE) {
      return; // BackupAcrossTest has the other database
    }
    String book = readBook(6);
    checkAll(book);
    Editions own = library.feed().editions();
    byte[] before = own.packed(book, 1).orElseThrow();
    Edition card = own.find(book, 1).orElseThrow();
    Path file = elsewhere.resolve("backup.zip");
    SqliteBackup.save(folder, file, true);
    close();
    Path other = elsewhere.resolve("other");
    SqliteBackup.restore(file, other, false, clock);
    library = SqliteLibrary.open(other, clock);
    Editions there = library.feed().editions();
    assertThat(there.packed(book, 1).orElseThrow()).isEqualTo(before);
    assertThat(there.find(book, 1)).contains(card);
  }
}
