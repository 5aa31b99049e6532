package org.barmap.page;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/** Makes small files that ask for very much: memory, depth, time. */
public final class Bombs {

  private static final int MODULUS = 65_521;

  private Bombs() {}

  /**
   * Returns a whole TIFF, all strips of which are the same few compressed bytes.
   *
   * @param channels 1 gray, 3 colours, 4 colours and their cover
   * @param depth bits of a channel, 8 or 16
   */
  static byte[] tiff(int width, int height, int channels, int depth) {
    int rows = Math.min(height, Math.max(1, (1 << 22) / (width * channels * depth / 8)));
    byte[] strip = deflated(new byte[width * channels * depth / 8 * rows], Deflater.NO_FLUSH);
    int strips = (height + rows - 1) / rows;
    int entries = channels == 4 ? 11 : 10;
    int bits = 8 + 2 + entries * 12 + 4;
    int offsets = bits + 2 * channels;
    int counts = offsets + 4 * strips;
    int data = counts + 4 * strips;
    ByteBuffer b = ByteBuffer.allocate(data + strip.length).order(ByteOrder.LITTLE_ENDIAN);
    b.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(8).putShort((short) entries);
    entry(b, 256, 4, 1, width);
    entry(b, 257, 4, 1, height);
    entry(b, 258, 3, channels, channels == 1 ? depth : bits);
    entry(b, 259, 3, 1, 8); // deflate
    entry(b, 262, 3, 1, channels == 1 ? 1 : 2);
    entry(b, 273, 4, strips, strips == 1 ? data : offsets);
    entry(b, 277, 3, 1, channels);
    entry(b, 278, 4, 1, rows);
    entry(b, 279, 4, strips, strips == 1 ? strip.length : counts);
    entry(b, 284, 3, 1, 1);
    if (channels == 4) {
      entry(b, 338, 3, 1, 2);
    }
    b.putInt(0);
    for (int i = 0; i < channels; i++) {
      b.putShort((short) depth);
    }
    for (int i = 0; i < strips; i++) {
      b.putInt(data);
    }
    for (int i = 0; i < strips; i++) {
      b.putInt(strip.length);
    }
    return b.put(strip).array();
  }

  private static void entry(ByteBuffer b, int tag, int type, int count, int value) {
    b.putShort((short) tag).putShort((short) type).putInt(count).putInt(value);
  }

  /**
   * Returns a whole PNG of zeros.
   *
   * @param colour 0 gray, 2 colours, 6 colours and their cover
   * @param depth bits of a channel
   */
  static byte[] png(int width, int height, int colour, int depth) throws IOException {
    int channels = colour == 0 ? 1 : colour == 2 ? 3 : 4;
    int row = 1 + (width * channels * depth + 7) / 8;
    int rows = Math.min(height, Math.max(1, (1 << 22) / row));
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    data.write(new byte[] {0x78, 1});
    byte[] block = bare(new byte[row * rows]);
    for (int y = 0; y + rows <= height; y += rows) {
      data.write(block);
    }
    data.write(bare(new byte[row * (height % rows)]));
    data.write(new byte[] {3, 0}); // an empty last block
    long all = (long) row * height;
    new DataOutputStream(data).writeInt((int) (all % MODULUS << 16 | 1)); // Adler-32 of zeros
    ByteArrayOutputStream head = new ByteArrayOutputStream();
    DataOutputStream h = new DataOutputStream(head);
    h.writeInt(width);
    h.writeInt(height);
    h.write(new byte[] {(byte) depth, (byte) colour, 0, 0, 0});
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10});
    chunk(out, "IHDR", head.toByteArray());
    chunk(out, "IDAT", data.toByteArray());
    chunk(out, "IEND", new byte[0]);
    return out.toByteArray();
  }

  private static void chunk(ByteArrayOutputStream to, String type, byte[] data) throws IOException {
    DataOutputStream out = new DataOutputStream(to);
    byte[] name = type.getBytes(StandardCharsets.US_ASCII);
    CRC32 crc = new CRC32();
    crc.update(name);
    crc.update(data);
    out.writeInt(data.length);
    out.write(name);
    out.write(data);
    out.writeInt((int) crc.getValue());
  }

  private static byte[] deflated(byte[] bytes, int flush) {
    return deflate(new Deflater(Deflater.BEST_COMPRESSION), bytes, flush);
  }

  /** Blocks without header and checksum, which can stand one behind the other. */
  private static byte[] bare(byte[] bytes) {
    return deflate(new Deflater(Deflater.BEST_COMPRESSION, true), bytes, Deflater.FULL_FLUSH);
  }

  private static byte[] deflate(Deflater deflater, byte[] bytes, int flush) {
    deflater.setInput(bytes);
    if (flush == Deflater.NO_FLUSH) {
      deflater.finish();
    }
    byte[] out = new byte[bytes.length / 4 + 1024];
    int n = deflater.deflate(out, 0, out.length, flush);
    deflater.end();
    return java.util.Arrays.copyOf(out, n);
  }

  /** Returns a PDF of one page that lies under so many nodes. */
  static byte[] deepPageTree(int depth) {
    List<String> objects = new ArrayList<>();
    objects.add("<</Type/Catalog/Pages 2 0 R>>");
    for (int i = 0; i < depth; i++) {
      String parent = i == 0 ? "" : "/Parent " + (i + 1) + " 0 R";
      objects.add("<</Type/Pages/Count 1/Kids[" + (i + 3) + " 0 R]" + parent + ">>");
    }
    objects.add("<</Type/Page/MediaBox[0 0 200 200]/Parent " + (depth + 1) + " 0 R>>");
    return pdf(objects);
  }

  /** Returns a PDF whose page calls a form that calls the next one ten times, and so on. */
  static byte[] nestedForms(int depth) {
    List<String> objects = new ArrayList<>();
    objects.add("<</Type/Catalog/Pages 2 0 R>>");
    objects.add("<</Type/Pages/Count 1/Kids[3 0 R]>>");
    objects.add(
        "<</Type/Page/MediaBox[0 0 595 842]/Parent 2 0 R/Contents 4 0 R"
            + "/Resources<</XObject<</F 5 0 R>>>>>>");
    objects.add(stream("", "/F Do"));
    for (int i = 0; i < depth; i++) {
      String own =
          "/Type/XObject/Subtype/Form/BBox[0 0 595 842]/Resources<</XObject<</F "
              + (6 + i)
              + " 0 R>>>>";
      objects.add(stream(own, "/F Do ".repeat(10)));
    }
    objects.add(stream("/Type/XObject/Subtype/Form/BBox[0 0 9 9]", "0 0 m"));
    return pdf(objects);
  }

  /** Returns a PDF of one page, each of whose pixels takes so many steps to reckon. */
  public static byte[] slowShading(int steps) {
    String domain = "/Domain[0 900 0 900]";
    String program = "{ pop " + "1 add 1 sub ".repeat(steps / 4) + "}";
    return pdf(
        List.of(
            "<</Type/Catalog/Pages 2 0 R>>",
            "<</Type/Pages/Count 1/Kids[3 0 R]>>",
            "<</Type/Page/MediaBox[0 0 595 842]/Parent 2 0 R/Contents 4 0 R"
                + "/Resources<</Shading<</S 5 0 R>>>>>>",
            stream("", "/S sh"),
            "<</ShadingType 1/ColorSpace/DeviceGray" + domain + "/Function 6 0 R>>",
            stream("/FunctionType 4/Range[0 1]" + domain, program)));
  }

  private static String stream(String keys, String content) {
    return "<<" + keys + "/Length " + content.length() + ">>stream\n" + content + "\nendstream";
  }

  private static byte[] pdf(List<String> objects) {
    StringBuilder out = new StringBuilder("%PDF-1.4\n");
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < objects.size(); i++) {
      places.add(out.length());
      out.append(i + 1).append(" 0 obj\n").append(objects.get(i)).append("\nendobj\n");
    }
    int table = out.length();
    out.append("xref\n0 ").append(objects.size() + 1).append("\n0000000000 65535 f \n");
    for (int place : places) {
      out.append("0".repeat(10 - String.valueOf(place).length())).append(place);
      out.append(" 00000 n \n");
    }
    out.append("trailer<</Root 1 0 R/Size ").append(objects.size() + 1);
    out.append(">>\nstartxref\n").append(table).append("\n%%EOF\n");
    return out.toString().getBytes(StandardCharsets.US_ASCII);
  }
}
