package org.barmap.exchange.musicxml;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.barmap.map.BarMap;
import org.barmap.map.SecondReading;
import org.barmap.map.json.BarMapJson;

/** Scores for the tests, written here. */
public final class Scores {

  private Scores() {}

  public static String score(String measures) {
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?><score-partwise version=\"4.0\"><part-list>"
        + "<score-part id=\"P1\"><part-name>Bass</part-name></score-part></part-list>"
        + "<part id=\"P1\">"
        + measures
        + "</part></score-partwise>";
  }

  public static String measure(String number, String content) {
    return "<measure number=\"" + number + "\">" + content + "</measure>";
  }

  public static String time(int beats, int unit) {
    return "<attributes><divisions>1</divisions><time><beats>"
        + beats
        + "</beats><beat-type>"
        + unit
        + "</beat-type></time></attributes>";
  }

  public static String rest(int duration) {
    return "<note><rest measure=\"yes\"/><duration>" + duration + "</duration></note>";
  }

  public static SecondReading read(String xml) throws Exception {
    return read(xml.getBytes(StandardCharsets.UTF_8));
  }

  public static SecondReading read(byte[] data) throws Exception {
    return MusicXmlReader.read("test.musicxml", new ByteArrayInputStream(data));
  }

  public static List<SecondReading.Measure> measures(String measures) throws Exception {
    return read(score(measures)).parts().get(0).measures();
  }

  public static byte[] zip(Object... namesAndContents) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      for (int i = 0; i < namesAndContents.length; i += 2) {
        zip.putNextEntry(new ZipEntry((String) namesAndContents[i]));
        Object content = namesAndContents[i + 1];
        zip.write(
            content instanceof byte[] b ? b : content.toString().getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
      }
    }
    return out.toByteArray();
  }

  public static String container(String path) {
    return "<container><rootfiles><rootfile full-path=\"" + path + "\"/></rootfiles></container>";
  }

  /** The truth of the demo book. */
  public static BarMap saltmarsh() throws IOException {
    return BarMapJson.read(
        Path.of(System.getProperty("barmap.home", ".."), "corpus/saltmarsh/saltmarsh.barmap.json"));
  }
}
