package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Enclosure;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Drafts lie in the store page by page. */
class DraftPagesTest {

  @TempDir Path folder;

  private SqliteLibrary open() throws IOException {
    return SqliteLibrary.open(folder, Clock.systemUTC());
  }

  private static BarMap demo() throws IOException {
    return BarMapJson.read(Path.of("..", "corpus", "saltmarsh", "saltmarsh.barmap.json"));
  }

  private Connection database() throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("barmap.db"));
  }

  /** Returns the pages written since they were marked; in JSON a mark means nothing. */
  private List<Integer> written() throws SQLException {
    return pages("select page from draft_page where bars not like ' %' order by page");
  }

  private void markAll() throws SQLException {
    try (Connection database = database();
        Statement statement = database.createStatement()) {
      statement.executeUpdate("update draft_page set bars = ' ' || bars");
    }
  }

  private List<Integer> pages(String query) throws SQLException {
    List<Integer> pages = new ArrayList<>();
    try (Connection database = database();
        Statement statement = database.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      while (row.next()) {
        pages.add(row.getInt("page"));
      }
    }
    return pages;
  }

  @Test
  void aCorrectionWritesOnlyThePageItChanges() throws IOException, SQLException {
    BarMap map = demo();
    String book;
    BarMap corrected;
    try (SqliteLibrary library = open()) {
      book = library.books().add("Saltmarsh", "Bass").id();
      library.readings().lay(book, library.readings().material(book), map);
      assertThat(written()).hasSameSizeAs(map.pages());
      markAll();
      Bar bar = map.bars().stream().filter(b -> b.page() == 4).findFirst().orElseThrow();
      library
          .drafts()
          .correct(book, 1, "", new BarCorrection.SetRehearsal(bar.id(), "Q", Enclosure.BOX));
      assertThat(written()).containsExactly(4);
      corrected = library.drafts().find(book).orElseThrow().value().map();
    }
    try (SqliteLibrary library = open()) {
      assertThat(library.drafts().find(book).orElseThrow().value().map()).isEqualTo(corrected);
    }
  }

  /** As the programs before this one wrote it: the map in one piece. */
  @Test
  void aBookOfAnOlderProgramIsReadAndWrittenOn() throws IOException, SQLException {
    String book;
    BarMap map;
    try (SqliteLibrary library = open()) {
      book = library.books().add("Saltmarsh", "Bass").id();
      library.readings().lay(book, library.readings().material(book), demo());
      map = library.drafts().find(book).orElseThrow().value().map();
    }
    try (Connection database = database();
        Statement statement = database.createStatement()) {
      statement.executeUpdate("delete from draft_page");
      String whole = BarMapJson.mapper().writeValueAsString(map).replace("'", "''");
      statement.executeUpdate("update book set draft_map = '" + whole + "'");
    }
    try (SqliteLibrary library = open()) {
      assertThat(library.drafts().find(book).orElseThrow().value().map()).isEqualTo(map);
      String first = map.bars().get(0).id();
      library.drafts().correct(book, 1, "", new BarCorrection.SetLabel(first, "x"));
    }
    assertThat(written()).hasSameSizeAs(map.pages());
    try (SqliteLibrary library = open()) {
      BarMap now = library.drafts().find(book).orElseThrow().value().map();
      assertThat(now.bars()).hasSameSizeAs(map.bars());
      assertThat(now.bars().get(0).label()).contains("x");
      assertThat(now.bars().subList(1, 50)).isEqualTo(map.bars().subList(1, 50));
    }
  }
}
