package org.barmap.page.file;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.zip.Inflater;
import java.util.zip.InflaterInputStream;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.common.PDStream;
import org.apache.pdfbox.pdmodel.graphics.image.PDImage;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.barmap.page.pixel.PageSettings;

/**
 * Looks at a picture inside a PDF before it is decoded: whether it claims more than is read, and
 * whether its data is all there where the decoder would fill up with white or black.
 */
final class PdfPictureCheck {

  private static final PageSettings.Pdf SET = PageSettings.STANDARD.pdf();

  private static final int FEW_BYTES = 1 << 16;

  private PdfPictureCheck() {}

  static void check(PDImage image) throws IOException, UnreadableException {
    Document.checkSize(image.getWidth(), image.getHeight());
    if (!(image instanceof PDImageXObject object)) {
      return;
    }
    data(object);
    for (PDImageXObject mask : masks(object)) {
      Document.checkSize(mask.getWidth(), mask.getHeight());
      data(mask);
    }
  }

  private static List<PDImageXObject> masks(PDImageXObject object) throws IOException {
    PDImageXObject soft = object.getSoftMask();
    PDImageXObject hard = soft == null ? object.getMask() : soft;
    return hard == null ? List.of() : List.of(hard);
  }

  private static void data(PDImageXObject object) throws IOException, UnreadableException {
    PDStream stream = object.getStream();
    List<COSName> filters = stream.getFilters();
    if (filters.isEmpty()) {
      return;
    }
    COSName last = filters.get(filters.size() - 1);
    if (last.equals(COSName.JBIG2_DECODE)) {
      Jbig2Check.check(globals(stream.getCOSObject()), before(stream, last));
    } else if (last.equals(COSName.JPX_DECODE)) {
      Jpeg2000Header.of(before(stream, last));
    } else if (last.equals(COSName.DCT_DECODE)) {
      PictureHeader header = PictureHeader.jpeg(before(stream, last));
      Document.checkSize(header.width(), header.height());
      if (!header.complete()) {
        throw PictureHeader.broken();
      }
    } else if (last.equals(COSName.FLATE_DECODE)) {
      inflated(object, before(stream, last));
    }
  }

  /** Returns a picture's data as its last filter gets it. */
  private static byte[] before(PDStream stream, COSName filter) throws IOException {
    try (InputStream in = stream.createInputStream(List.of(filter.getName()))) {
      return in.readAllBytes();
    }
  }

  /** Returns the segments of JBIG2 that a picture shares with others (ISO 32000-1, table 12). */
  private static byte[] globals(COSDictionary picture) throws IOException {
    COSBase parameters = picture.getDictionaryObject(COSName.DECODE_PARMS, COSName.DP);
    if (parameters instanceof COSArray array && array.size() > 0) {
      parameters = array.getObject(array.size() - 1);
    }
    if (parameters instanceof COSDictionary dictionary
        && dictionary.getDictionaryObject(COSName.JBIG2_GLOBALS) instanceof COSStream shared) {
      try (InputStream in = shared.createInputStream()) {
        return in.readAllBytes();
      }
    }
    return new byte[0];
  }

  private static void inflated(PDImageXObject object, byte[] data)
      throws IOException, UnreadableException {
    int components = object.isStencil() ? 1 : object.getColorSpace().getNumberOfComponents();
    long row =
        ((long) object.getWidth() * components * object.getBitsPerComponent() + Byte.SIZE - 1)
            / Byte.SIZE;
    long needed = row * object.getHeight();
    long found = count(data, SET.moreThanNeeded() * needed + FEW_BYTES);
    if (found < SET.allThere() * needed) {
      throw PictureHeader.broken();
    }
    if (found > SET.moreThanNeeded() * needed + FEW_BYTES) {
      throw new UnreadableException(
          "too-large", "it unfolds to more than its size; export it again.");
    }
  }

  /** Counts the bytes that data unfolds to, as far as it is whole; stops behind a number. */
  private static long count(byte[] data, long enough) {
    Inflater inflater = new Inflater(true);
    byte[] part = new byte[FEW_BYTES];
    long found = 0;
    // The two bytes of the zlib header are passed over, as PDFBox does: some writers get them
    // wrong.
    int start = Math.min(2, data.length);
    try (InputStream in =
        new InflaterInputStream(
            new ByteArrayInputStream(data, start, data.length - start), inflater)) {
      for (int n = in.read(part); n >= 0 && found <= enough; n = in.read(part)) {
        found += n;
      }
    } catch (IOException e) {
      // What follows can't be read; what was found before it counts.
    } finally {
      inflater.end();
    }
    return found;
  }
}
