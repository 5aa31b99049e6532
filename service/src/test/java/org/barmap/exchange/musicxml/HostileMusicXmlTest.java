package org.barmap.exchange.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.barmap.map.SecondReading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HostileMusicXmlTest {

  @Test
  void anEntityNeverBringsAFileIn(@TempDir Path folder) throws Exception {
    Path secret = Files.writeString(folder.resolve("secret.txt"), "the combination is 7171");
    String xml =
        "<!DOCTYPE score-partwise [<!ENTITY x SYSTEM \""
            + secret.toUri()
            + "\">]><score-partwise><part-list><score-part id=\"P1\"><part-name>&x;</part-name>"
            + "</score-part></part-list><part id=\"P1\"><measure number=\"1\"/></part></score-partwise>";

    String seen;
    try {
      SecondReading read = Scores.read(xml);
      seen = read.toString();
    } catch (UnreadableMusicXmlException e) {
      seen = String.valueOf(e.getMessage());
    }

    assertThat(seen).doesNotContain("7171");
  }

  @Test
  void entitiesThatGrowAreRefused() {
    StringBuilder dtd = new StringBuilder("<!DOCTYPE score-partwise [<!ENTITY a0 \"aaaaaaaaaa\">");
    for (int i = 1; i < 12; i++) {
      dtd.append("<!ENTITY a" + i + " \"" + ("&a" + (i - 1) + ";").repeat(10) + "\">");
    }
    String xml =
        dtd
            + "]><score-partwise><part-list><score-part id=\"P1\"><part-name>&a11;</part-name>"
            + "</score-part></part-list></score-partwise>";

    assertThatThrownBy(() -> Scores.read(xml)).isInstanceOf(UnreadableMusicXmlException.class);
  }

  /** Most MusicXML files name the W3C's document type; it is never fetched. */
  @Test
  void aDocumentTypeIsPassedOver() throws Exception {
    String xml =
        "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\""
            + " \"http://unreachable.invalid/partwise.dtd\">"
            + Scores.score(Scores.measure("1", "")).replaceFirst("<\\?xml.*?\\?>", "");

    assertThat(Scores.read(xml).parts()).hasSize(1);
  }

  @Test
  void aZipBombIsStoppedAtTheLimit() throws Exception {
    byte[] zeros = new byte[40 << 20];
    Arrays.fill(zeros, (byte) ' ');
    byte[] asScore =
        Scores.zip("META-INF/container.xml", Scores.container("a.xml"), "a.xml", zeros);
    byte[] before = Scores.zip("junk", zeros, "META-INF/container.xml", Scores.container("a.xml"));

    assertThat(asScore.length).isLessThan(1 << 20);
    assertThatThrownBy(() -> Scores.read(asScore))
        .isInstanceOf(UnreadableMusicXmlException.class)
        .hasMessageContaining("32 MB");
    assertThatThrownBy(() -> Scores.read(before)).isInstanceOf(UnreadableMusicXmlException.class);
  }

  /** Three megabytes of empty notes in a small zip would be gigabytes of objects. */
  @Test
  void massesOfEmptyElementsAreStopped() throws Exception {
    String notes = "<measure number=\"1\">" + "<note/>".repeat(2_100_000) + "</measure>";
    byte[] zip =
        Scores.zip(
            "META-INF/container.xml", Scores.container("a.xml"), "a.xml", Scores.score(notes));

    assertThat(zip.length).isLessThan(1 << 18);
    assertThatThrownBy(() -> Scores.read(zip)).hasMessageContaining("elements");
  }

  @Test
  void scoresOfVeryManyPartsOrBarsAreReadOrRefused() throws Exception {
    assertThat(Scores.read(parts(200)).parts()).hasSize(200);
    assertThatThrownBy(() -> Scores.read(parts(201))).hasMessageContaining("200 parts");
    String bars = Scores.measure("1", "").repeat(20_001);
    assertThatThrownBy(() -> Scores.read(Scores.score(bars))).hasMessageContaining("20000 bars");
  }

  private static String parts(int n) {
    StringBuilder list = new StringBuilder();
    StringBuilder parts = new StringBuilder();
    for (int i = 1; i <= n; i++) {
      list.append("<score-part id=\"P%d\"><part-name>%d</part-name></score-part>".formatted(i, i));
      parts.append("<part id=\"P%d\"><measure number=\"1\"/></part>".formatted(i));
    }
    return "<score-partwise><part-list>" + list + "</part-list>" + parts + "</score-partwise>";
  }

  @Test
  void zipsThatHoldNoScoreSaySo() throws Exception {
    byte[] nothing = Scores.zip("readme.txt", "hello");
    byte[] missing = Scores.zip("META-INF/container.xml", Scores.container("../../etc/passwd"));
    byte[] broken = Arrays.copyOf(Scores.zip("META-INF/container.xml", Scores.container("a")), 60);

    assertThatThrownBy(() -> Scores.read(nothing)).hasMessageContaining("container.xml");
    assertThatThrownBy(() -> Scores.read(missing)).hasMessageContaining("not in it");
    assertThatThrownBy(() -> Scores.read(broken)).isInstanceOf(UnreadableMusicXmlException.class);
  }

  @Test
  void deepNestingIsRefused() {
    String xml = "<score-partwise>" + "<credit>".repeat(5000);

    assertThatThrownBy(() -> Scores.read(xml)).hasMessageContaining("nested");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "hello, this is a text",
        "<html><body>no</body></html>",
        "<score-timewise version=\"4.0\"/>",
        "<score-partwise version=\"4.0\"/>",
        "<score-partwise><part-list><score-part",
        "{\"format\":\"barmap/1\"}"
      })
  void whatIsNoScoreIsRefusedInOneSentence(String text) {
    assertThatThrownBy(() -> Scores.read(text))
        .isInstanceOf(UnreadableMusicXmlException.class)
        .satisfies(e -> assertThat(String.valueOf(e.getMessage())).hasSizeLessThan(300))
        .satisfies(e -> assertThat(String.valueOf(e.getMessage())).doesNotContain("\n"));
  }

  @Test
  void anyCutOffScoreIsRefusedOrRead() {
    byte[] whole =
        Scores.score(
                Scores.measure("1", Scores.time(4, 4) + Scores.rest(4))
                    + Scores.measure("2", Scores.rest(4)))
            .getBytes(StandardCharsets.UTF_8);
    for (int n = 0; n < whole.length; n += 7) {
      byte[] part = Arrays.copyOf(whole, n);
      assertThatThrownBy(() -> Scores.read(part)).isInstanceOf(UnreadableMusicXmlException.class);
    }
  }

  /** Damage of every kind, drawn from one seed: a reading or a refusal, never anything else. */
  @Test
  void damagedScoresAreRefusedOrRead() throws Exception {
    byte[] plain =
        Scores.score(
                Scores.measure("1", Scores.time(4, 4) + Scores.rest(4))
                    + Scores.measure("2", "<barline><repeat direction=\"backward\"/></barline>"))
            .getBytes(StandardCharsets.UTF_8);
    byte[] zipped = Scores.zip("META-INF/container.xml", Scores.container("a.xml"), "a.xml", plain);
    Random random = new Random(7171);
    int read = 0;
    for (int i = 0; i < 400; i++) {
      byte[] data = (i % 2 == 0 ? plain : zipped).clone();
      for (int k = random.nextInt(4); k >= 0; k--) {
        data[random.nextInt(data.length)] = (byte) random.nextInt(256);
      }
      try {
        Scores.read(data);
        read++;
      } catch (UnreadableMusicXmlException e) {
        assertThat(String.valueOf(e.getMessage())).isNotBlank();
      }
    }

    assertThat(read).isBetween(1, 399);
  }

  @Test
  void absurdFiguresDoNoHarm() throws Exception {
    String style =
        "<attributes><measure-style><multiple-rest>99999999999999999999</multiple-rest>"
            + "</measure-style><time><beats>999999999999</beats><beat-type>0</beat-type></time>"
            + "</attributes>";
    String repeat =
        "<barline><repeat direction=\"backward\" times=\"123456789012345678\"/></barline>";

    SecondReading.Measure read =
        Scores.measures(
                "<measure number=\"" + "9".repeat(5000) + "\">" + style + repeat + "</measure>")
            .get(0);

    assertThat(read.multiRest()).isZero();
    assertThat(read.meter()).isEmpty();
    assertThat(read.times()).isEmpty();
    assertThat(read.number()).hasSizeLessThan(50);
  }
}
