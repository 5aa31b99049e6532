package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.barmap.cli.out.ExitCode;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.picture.OnePicture;
import org.barmap.library.sqlite.SqliteBackup;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A backup that somebody made to do harm, or that the way here damaged, is refused whole. */
class HostileBackupTest {

  private static final int BROKEN = Integer.getInteger("barmap.fuzz.backups", 24);

  @TempDir private Path folder;
  private static final Map<String, byte[]> GOOD = new LinkedHashMap<>();
  private static byte[] whole = {};
  private int restored;

  private Path file() {
    return folder.resolve("all.zip");
  }

  @BeforeAll
  static void save(@TempDir Path saved) throws IOException {
    Path data = saved.resolve("data");
    Path file = saved.resolve("all.zip");
    try (SqliteLibrary library = SqliteLibrary.open(data, Clock.systemUTC())) {
      OnePicture.unread(library, "Saltmarsh");
    }
    SqliteBackup.save(data, file, true);
    whole = Files.readAllBytes(file);
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(whole))) {
      for (ZipEntry e = zip.getNextEntry(); e != null; e = zip.getNextEntry()) {
        GOOD.put(e.getName(), zip.readAllBytes());
      }
    }
  }

  /** Writes a backup whose list says of every entry what is true. */
  private static byte[] packed(Map<String, byte[]> entries) throws IOException {
    ObjectNode list =
        (ObjectNode)
            BarMapJson.mapper().readTree(Objects.requireNonNull(entries.get("manifest.json")));
    ArrayNode files = list.putArray("files");
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Map.Entry<String, byte[]> one : entries.entrySet()) {
        if (!one.getKey().equals("manifest.json")) {
          zip.putNextEntry(new ZipEntry(one.getKey()));
          zip.write(one.getValue());
          PictureMark mark =
              PictureMark.copy(
                  new ByteArrayInputStream(one.getValue()), OutputStream.nullOutputStream());
          files
              .addObject()
              .put("name", one.getKey())
              .put("bytes", mark.bytes())
              .put("sha256", mark.sha256());
        }
      }
      zip.putNextEntry(new ZipEntry("manifest.json"));
      zip.write(BarMapJson.mapper().writeValueAsBytes(list));
    }
    return out.toByteArray();
  }

  private void withStore(String... statements) throws IOException, SQLException {
    Path store = folder.resolve("store.db");
    Files.write(store, Objects.requireNonNull(GOOD.get("barmap.db")));
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + store);
        Statement one = connection.createStatement()) {
      for (String statement : statements) {
        one.executeUpdate(statement);
      }
    }
    Map<String, byte[]> entries = new LinkedHashMap<>(GOOD);
    entries.put("barmap.db", Files.readAllBytes(store));
    Files.write(file(), packed(entries));
  }

  private void assertRefused(String why) throws IOException {
    Path other = folder.resolve("other" + ++restored);
    Ran ran = Ran.barmap("restore", file(), "--data", other);
    assertThat(ran.err()).contains(why).doesNotContain("Exception").doesNotContain("\tat ");
    assertThat(ran.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(other.resolve("restoring")).doesNotExist();
    assertThat(other.resolve("barmap.db")).doesNotExist();
    if (Files.exists(other.resolve("books"))) {
      assertThat(other.resolve("books")).isEmptyDirectory();
    }
  }

  @Test
  void whatIsPackedAnewAsItWasIsTaken() throws IOException {
    Files.write(file(), packed(GOOD));
    Ran ran = Ran.barmap("restore", file(), "--data", folder.resolve("other"));
    assertThat(ran.code()).as(ran.err()).isZero();
  }

  @Test
  void aStoreWithTablesOfItsOwnIsRefused() throws IOException, SQLException {
    String tables = "its tables are not those that barmap makes";
    withStore(
        "create trigger kept after delete on page begin insert into doomed values ('x'); end");
    assertRefused(tables);
    withStore("create view more as select * from page");
    assertRefused(tables);
    withStore("alter table page add column more text");
    assertRefused(tables);
    withStore("drop index page_of_book");
    assertRefused(tables);
    withStore("drop table reply", "create view reply as select 1 as key");
    assertRefused(tables);
    withStore("delete from flyway_schema_history where installed_rank = 3");
    assertRefused(tables);
    withStore("drop table flyway_schema_history");
    assertRefused("it holds no books of barmap");
  }

  @Test
  void aStoreOfANewerProgramIsRefused() throws IOException, SQLException {
    withStore(
        "insert into flyway_schema_history (installed_rank, version, description, type, script,"
            + " installed_by, execution_time, success)"
            + " values (999, '999', 'later', 'SQL', 'V999__later.sql', '', 1, 1)");
    assertRefused("made by a newer barmap");
  }

  @Test
  void aStoreThatNamesPlacesElsewhereIsRefused() throws IOException, SQLException {
    Path victim = Files.writeString(folder.resolve("victim"), "of somebody else");
    String names = "names of files that barmap does not give";
    withStore("update page set picture = '../../../victim'");
    assertRefused(names);
    withStore("insert into doomed values ('abcdefghjk/../../../victim')");
    assertRefused(names);
    withStore("insert into doomed values ('..')");
    assertRefused(names);
    withStore("update page set id = '../../victim'");
    assertRefused(names);
    withStore("update book set id = '..'", "update page set book = '..'", "delete from picture");
    assertRefused(names);
    assertThat(victim).hasContent("of somebody else");
  }

  @Test
  void aDamagedStoreIsRefused() throws IOException, SQLException {
    withStore("update page set book = 'nobody'", "delete from picture");
    assertRefused("it names what is not there");
    Map<String, byte[]> entries = new LinkedHashMap<>(GOOD);
    byte[] store = Objects.requireNonNull(GOOD.get("barmap.db")).clone();
    Arrays.fill(store, 8192, 20_000, (byte) 7);
    entries.put("barmap.db", store);
    Files.write(file(), packed(entries));
    assertRefused("its database is damaged");
    entries.put("barmap.db", "no store".getBytes(StandardCharsets.UTF_8));
    Files.write(file(), packed(entries));
    assertRefused("its database is damaged");
  }

  @Test
  void whatWouldFillTheDiskIsRefusedBeforeItIsUnpacked() throws IOException {
    Map<String, byte[]> entries = new LinkedHashMap<>(GOOD);
    entries.put("books/abcdefghjk/" + OnePicture.NAME, new byte[64 << 20]);
    Files.write(file(), packed(entries));
    assertRefused("far larger");
    Files.write(file(), lying());
    assertRefused("is not as it was saved");
  }

  /** Says of a picture of many bytes that it has seven, in the list and in the directory. */
  private byte[] lying() throws IOException {
    String name = "books/abcdefghjk/" + OnePicture.NAME;
    Map<String, byte[]> entries = new LinkedHashMap<>(GOOD);
    entries.put(name, new byte[1 << 20]);
    byte[] zip = packed(entries);
    String text = new String(zip, StandardCharsets.ISO_8859_1);
    int directory = text.lastIndexOf("PK\1\2", text.lastIndexOf(name));
    assertThat(HexFormat.of().formatHex(zip, directory + 24, directory + 28)).isEqualTo("00001000");
    System.arraycopy(new byte[] {7, 0, 0, 0}, 0, zip, directory + 24, 4);
    entries.put(name, new byte[7]);
    return withManifest(zip, manifest(packed(entries)));
  }

  private static byte[] manifest(byte[] zip) throws IOException {
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
      for (ZipEntry e = in.getNextEntry(); e != null; e = in.getNextEntry()) {
        if (e.getName().equals("manifest.json")) {
          return in.readAllBytes();
        }
      }
    }
    throw new IOException("no list");
  }

  /** Puts another list in, with the directory as it is otherwise. */
  private byte[] withManifest(byte[] zip, byte[] manifest) throws IOException {
    Path at = Files.write(folder.resolve("lying.zip"), zip);
    try (FileSystem inside = FileSystems.newFileSystem(at)) {
      Files.write(inside.getPath("manifest.json"), manifest);
    }
    return Files.readAllBytes(at);
  }

  @Test
  void aListThatIsWrongIsRefused() throws IOException {
    for (String list :
        List.of(
            "{}",
            "[]",
            "null",
            "{\"format\":\"barbackup/2\",\"files\":[]}",
            "{\"format\":\"barbackup/1\",\"files\":[null]}",
            "{\"format\":\"barbackup/1\",\"files\":[{}]}",
            "{\"format\":\"barbackup/1\",\"files\":[{\"name\":\"../x\",\"bytes\":-1}]}",
            "[".repeat(5000))) {
      Files.write(file(), withManifest(packed(GOOD), list.getBytes(StandardCharsets.UTF_8)));
      assertRefused("backup");
    }
  }

  @Test
  void aFileThatTheWayHereBrokeIsRefusedOrAsItWas() throws IOException {
    Random random = new Random(15);
    int refused = 0;
    for (int i = 0; i < BROKEN; i++) {
      byte[] broken =
          i % 2 == 0 ? Arrays.copyOf(whole, random.nextInt(whole.length)) : whole.clone();
      if (i % 2 == 1) {
        broken[random.nextInt(whole.length)] ^= (byte) (1 + random.nextInt(255));
      }
      Files.write(file(), broken);
      Path other = folder.resolve("other" + ++restored);
      Ran ran = Ran.barmap("restore", file(), "--data", other);
      assertThat(ran.err()).as("case " + i).doesNotContain("Exception").doesNotContain("\tat ");
      if (ran.code() == 0) {
        assertThat(Files.readAllBytes(other.resolve("barmap.db"))).isEqualTo(GOOD.get("barmap.db"));
      } else {
        refused++;
        assertThat(ran.code()).isEqualTo(ExitCode.UNREADABLE);
        assertThat(other.resolve("barmap.db")).doesNotExist();
        assertThat(other.resolve("restoring")).doesNotExist();
      }
    }
    assertThat(refused).isGreaterThan(BROKEN / 2);
  }
}
