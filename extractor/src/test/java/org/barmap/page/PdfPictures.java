package org.barmap.page;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.IntBuffer;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.common.PDStream;
import org.apache.pdfbox.pdmodel.graphics.image.CCITTFactory;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.Loader;
import org.bytedeco.javacpp.SizeTPointer;
import org.bytedeco.leptonica.PIX;
import org.bytedeco.leptonica.global.leptonica;

/** Makes PDF pages of one picture as scanners of offices write them. */
final class PdfPictures {

  /** Pixels of a scan at 150 dpi. */
  static final int WIDE = 620;

  static final int HIGH = 877;

  private PdfPictures() {}

  /** White, with a black block from (100, 150) to (300, 200). */
  static BufferedImage block(int type) {
    return PagePainter.drawn(WIDE, HIGH, type, g -> g.fillRect(100, 150, 200, 50));
  }

  /** Returns one generic region in MMR, the coding of Group 4 (ITU-T T.88, 7.4.6 and 6.2.6). */
  static byte[] jbig2() throws IOException {
    return jbig2(WIDE, HIGH, WIDE, HIGH);
  }

  /** The same, with sizes of one's own in the page information and in the region. */
  static byte[] jbig2(int pageWidth, int pageHeight, int width, int height) throws IOException {
    ByteArrayOutputStream page = new ByteArrayOutputStream();
    DataOutputStream p = new DataOutputStream(page);
    p.writeInt(pageWidth);
    p.writeInt(pageHeight);
    p.writeLong(0); // resolution unknown
    p.write(0);
    p.writeShort(0);
    ByteArrayOutputStream region = new ByteArrayOutputStream();
    DataOutputStream r = new DataOutputStream(region);
    r.writeInt(width);
    r.writeInt(height);
    r.writeLong(0); // at the upper left
    r.write(0);
    r.write(1); // MMR
    r.write(group4());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    segment(out, 0, 48, page.toByteArray());
    segment(out, 1, 38, region.toByteArray());
    return out.toByteArray();
  }

  /** Writes a segment of page 1 that refers to no other (7.2). */
  private static void segment(ByteArrayOutputStream out, int number, int type, byte[] data)
      throws IOException {
    DataOutputStream d = new DataOutputStream(out);
    d.writeInt(number);
    d.write(type);
    d.write(0);
    d.write(1);
    d.writeInt(data.length);
    d.write(data);
  }

  private static byte[] group4() throws IOException {
    try (PDDocument d = new PDDocument()) {
      PDImageXObject g4 = CCITTFactory.createFromImage(d, block(BufferedImage.TYPE_BYTE_BINARY));
      try (var in = g4.getCOSObject().createRawInputStream()) {
        return in.readAllBytes();
      }
    }
  }

  /** Returns the block as JP2, without loss, by OpenJPEG; colours or only gray. */
  static byte[] jp2(boolean colour) {
    Loader.load(leptonica.class);
    PIX pix = leptonica.pixCreate(WIDE, HIGH, colour ? 32 : 8);
    int perRow = leptonica.pixGetWpl(pix);
    IntBuffer words =
        new BytePointer(leptonica.pixGetData(pix))
            .capacity(4L * perRow * HIGH)
            .asByteBuffer()
            .order(java.nio.ByteOrder.nativeOrder())
            .asIntBuffer();
    int perWord = colour ? 1 : 4;
    for (int y = 0; y < HIGH; y++) {
      for (int x = 0; x < perRow; x++) {
        boolean black = y >= 150 && y < 200 && x * perWord >= 100 && x * perWord < 300;
        words.put(y * perRow + x, black ? 0 : 0xffffffff);
      }
    }
    BytePointer data = new BytePointer();
    try (SizeTPointer size = new SizeTPointer(1)) {
      leptonica.pixWriteMemJp2k(data, size, pix, 100, 5, 0, 0);
      byte[] bytes = new byte[(int) size.get()];
      data.capacity(bytes.length).get(bytes);
      leptonica.lept_free(data);
      return bytes;
    } finally {
      leptonica.pixDestroy(pix);
    }
  }

  /** Returns the code stream alone, which a PDF may hold as well (ISO 32000-1, 7.4.9). */
  static byte[] codestream(byte[] jp2) {
    int at = sizes(jp2) - 8;
    return java.util.Arrays.copyOfRange(jp2, at, jp2.length);
  }

  /** Returns where the widths and heights of a JP2 stand: behind FF4F FF51, length and profile. */
  static int sizes(byte[] jp2) {
    for (int i = 0; i + 4 < jp2.length; i++) {
      if ((jp2[i] & 0xff) == 0xff && jp2[i + 1] == 0x4f && jp2[i + 3] == 0x51) {
        return i + 8;
      }
    }
    throw new AssertionError("no code stream");
  }

  /** Adds an A6 page with one picture from the lower left corner. */
  static void page(PDDocument document, PDImageXObject picture, float width, float height)
      throws IOException {
    PDPage page = new PDPage(PDRectangle.A6);
    document.addPage(page);
    try (PDPageContentStream content = new PDPageContentStream(document, page)) {
      content.drawImage(picture, 0, 0, width, height);
    }
  }

  /** Adds an A6 page filled by one picture. */
  static void page(PDDocument document, PDImageXObject picture) throws IOException {
    page(document, picture, PDRectangle.A6.getWidth(), PDRectangle.A6.getHeight());
  }

  /** Returns a picture of the block's size by the name of its filter and its data. */
  static PDImageXObject picture(PDDocument document, String filter, byte[] data)
      throws IOException {
    COSStream stream = document.getDocument().createCOSStream();
    try (OutputStream out = stream.createRawOutputStream()) {
      out.write(data);
    }
    COSArray filters = new COSArray();
    filters.add(COSName.getPDFName(filter));
    stream.setItem(COSName.FILTER, filters);
    stream.setItem(COSName.TYPE, COSName.XOBJECT);
    stream.setItem(COSName.SUBTYPE, COSName.IMAGE);
    stream.setInt(COSName.WIDTH, WIDE);
    stream.setInt(COSName.HEIGHT, HIGH);
    if (!filter.equals("JPXDecode")) {
      stream.setInt(COSName.BITS_PER_COMPONENT, filter.equals("JBIG2Decode") ? 1 : 8);
      stream.setItem(COSName.COLORSPACE, COSName.DEVICEGRAY);
    }
    return new PDImageXObject(new PDStream(stream), null);
  }
}
