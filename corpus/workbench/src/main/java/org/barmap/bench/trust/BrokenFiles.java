package org.barmap.bench.trust;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import javax.imageio.ImageIO;
import org.barmap.bench.trust.Asked.Sent;

/** Small files of every kind that is taken, with bytes changed by chance. */
final class BrokenFiles {

  private static final int SIZE = 120;
  private static final int MOST_CHANGES = 3;

  private final List<Sent> whole = whole();

  /** Makes the whole files once. */
  BrokenFiles() throws IOException {}

  /** Returns one of them, broken. */
  Sent next(Random random) {
    Sent one = whole.get(random.nextInt(whole.size()));
    return new Sent(one.name(), broken(one.bytes(), random));
  }

  /** Returns what one to three changes leave of it. */
  static byte[] broken(byte[] bytes, Random random) {
    byte[] out = bytes;
    for (int n = 1 + random.nextInt(MOST_CHANGES); n > 0 && out.length > 0; n--) {
      out = changed(out, random);
    }
    return out;
  }

  /** Whole files of every kind that is taken, all of them small but for two lines of music. */
  private static List<Sent> whole() throws IOException {
    List<Sent> seeds = new ArrayList<>();
    BufferedImage gray = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_BYTE_GRAY);
    BufferedImage colour = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_INT_RGB);
    BufferedImage deep = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_USHORT_GRAY);
    for (String format : List.of("png", "jpg", "tif")) {
      for (BufferedImage image : List.of(gray, colour, deep)) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        if (ImageIO.write(image, format, out)) {
          seeds.add(new Sent("page." + format, out.toByteArray()));
        }
      }
    }
    // what is broken in these is often a picture all the same, with music in it that is read
    byte[] music = Strips.pictures().values().iterator().next();
    seeds.add(new Sent("page.png", music));
    ByteArrayOutputStream jpeg = new ByteArrayOutputStream();
    ImageIO.write(ImageIO.read(new ByteArrayInputStream(music)), "jpg", jpeg);
    seeds.add(new Sent("page.jpg", jpeg.toByteArray()));
    seeds.add(text("page.pdf", PDF));
    seeds.add(text("score.musicxml", SCORE));
    seeds.add(text("map.json", "{\"format\":\"barmap/1\",\"pages\":[],\"bars\":[]}"));
    return seeds;
  }

  private static Sent text(String name, String text) {
    return new Sent(name, text.getBytes(StandardCharsets.ISO_8859_1));
  }

  private static final String PDF =
      "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0"
          + " R]/Count 1>>endobj\n3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 72"
          + " 72]/Contents 4 0 R>>endobj\n4 0 obj<</Length 22>>stream\n0 0 m 50 50 l S 1 w Q"
          + " q\nendstream endobj\ntrailer<</Root 1 0 R/Size 5>>\n%%EOF\n";

  private static final String SCORE =
      "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list><score-part id=\"P1\">"
          + "<part-name>Bass</part-name></score-part></part-list><part id=\"P1\"><measure"
          + " number=\"1\"><note><rest/><duration>4</duration></note></measure></part>"
          + "</score-partwise>";

  /** One change: a bit turned, bytes overwritten, a piece out or twice, or the end cut off. */
  private static byte[] changed(byte[] bytes, Random random) {
    int at = random.nextInt(bytes.length);
    int end = Math.min(bytes.length, at + 1 + random.nextInt(40));
    byte[] out = bytes.clone();
    switch (random.nextInt(5)) {
      case 0 -> out[at] ^= (byte) (1 << random.nextInt(8));
      case 1 -> Arrays.fill(out, at, end, (byte) (random.nextBoolean() ? 0 : 0xff));
      case 2 -> out = joined(bytes, at, end);
      case 3 -> out = joined(bytes, end, at);
      default -> out = Arrays.copyOf(bytes, Math.max(1, at));
    }
    return out;
  }

  /** The beginning up to one place and the end from another one on. */
  private static byte[] joined(byte[] bytes, int head, int tail) {
    byte[] out = Arrays.copyOf(bytes, head + bytes.length - tail);
    System.arraycopy(bytes, tail, out, head, bytes.length - tail);
    return out;
  }
}
