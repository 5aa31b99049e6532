package org.barmap.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.zip.DeflaterOutputStream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.graphics.image.LosslessFactory;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.page.file.Document;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Pictures inside PDFs look as they were scanned, or the page says that one can't be read. */
class PdfPicturesTest {

  private static final String JBIG2 = "JBIG2Decode";
  private static final String JPX = "JPXDecode";

  @TempDir Path dir;

  /** Makes pictures for a document. */
  private interface Maker {
    PDImageXObject in(PDDocument document) throws IOException;
  }

  private static Maker of(String filter, byte[] data) {
    return document -> PdfPictures.picture(document, filter, data);
  }

  private static PDImageXObject good(PDDocument document) throws IOException {
    return LosslessFactory.createFromImage(
        document, PdfPictures.block(BufferedImage.TYPE_BYTE_GRAY));
  }

  private List<PageResult> read(PDDocument document) throws IOException {
    Path file = dir.resolve("book.pdf");
    document.save(file.toFile());
    List<PageResult> results = new ArrayList<>();
    try (PageSource source = new PageSource(List.of(file))) {
      while (source.hasNext()) {
        PageResult result = source.next();
        results.add(result);
        if (result instanceof PageResult.Loaded loaded) {
          loaded.page().close();
        }
      }
    }
    return results;
  }

  private void looksLikeTheBlock(Maker maker) throws Exception {
    Path file = dir.resolve("scan.pdf");
    try (PDDocument d = new PDDocument()) {
      PdfPictures.page(d, maker.in(d));
      d.save(file.toFile());
    }
    try (Document pages = PageSource.document(file);
        Mats scope = new Mats()) {
      var gray = scope.keep(pages.page(0));
      double x = gray.cols() / (double) PdfPictures.WIDE;
      double y = gray.rows() / (double) PdfPictures.HIGH;
      assertThat(gray.get((int) (175 * y), (int) (110 * x))[0]).isLessThan(30);
      assertThat(gray.get((int) (175 * y), (int) (290 * x))[0]).isLessThan(30);
      assertThat(gray.get((int) (175 * y), (int) (310 * x))[0]).isGreaterThan(225);
      assertThat(gray.get((int) (140 * y), (int) (200 * x))[0]).isGreaterThan(225);
      assertThat(gray.get((int) (210 * y), (int) (200 * x))[0]).isGreaterThan(225);
    }
  }

  @Test
  void aScanInJbig2() throws Exception {
    looksLikeTheBlock(of(JBIG2, PdfPictures.jbig2()));
  }

  @Test
  void aScanInJpeg2000() throws Exception {
    looksLikeTheBlock(of(JPX, PdfPictures.jp2(false)));
    looksLikeTheBlock(of(JPX, PdfPictures.jp2(true)));
  }

  @Test
  void theCodeStreamOfJpeg2000Alone() throws Exception {
    looksLikeTheBlock(of(JPX, PdfPictures.codestream(PdfPictures.jp2(false))));
    looksLikeTheBlock(of(JPX, PdfPictures.codestream(PdfPictures.jp2(true))));
  }

  /** The picture stands on page 2 of three; the others are read. */
  private Finding unread(Maker maker) throws IOException {
    List<PageResult> results;
    try (PDDocument d = new PDDocument()) {
      PdfPictures.page(d, good(d));
      PdfPictures.page(d, maker.in(d));
      PdfPictures.page(d, good(d));
      results = read(d);
    }
    assertThat(results).hasSize(3);
    assertThat(results.get(0)).isInstanceOf(PageResult.Loaded.class);
    assertThat(results.get(2)).isInstanceOf(PageResult.Loaded.class);
    assertThat(results.get(1)).isInstanceOf(PageResult.Failed.class);
    assertThat(Mats.live()).isZero();
    Finding finding = results.get(1).findings().get(0);
    assertThat(finding.severity()).isEqualTo(Severity.ERROR);
    assertThat(finding.text())
        .startsWith("book.pdf: ")
        .contains("picture on page 2")
        .doesNotContain("\n", "Exception", "org.");
    return finding;
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.1, 0.5, 0.95})
  void brokenOffPicturesAreSaidToBeSo(double part) throws IOException {
    for (Maker maker :
        List.of(
            of(JBIG2, cut(PdfPictures.jbig2(), part)),
            of(JPX, cut(PdfPictures.jp2(false), part)),
            of(JPX, cut(PdfPictures.jp2(true), part)),
            of("FlateDecode", cut(flate(), part)),
            of("DCTDecode", cut(jpeg(), part / 4)))) {
      assertThat(unread(maker).code()).isEqualTo("picture-unread");
    }
  }

  @Test
  void picturesThatAreNoneAreSaidToBeSo() throws IOException {
    byte[] text = "Dear player, this is no picture at all.".getBytes("US-ASCII");
    for (String filter : List.of(JBIG2, JPX, "DCTDecode", "FlateDecode", "NoSuchFilter")) {
      // taken as JBIG2, the letters claim a page of millions of pixels
      assertThat(unread(of(filter, text)).code()).isIn("picture-unread", "too-large");
    }
    byte[] garbled = PdfPictures.jp2(true);
    Arrays.fill(garbled, PdfPictures.sizes(garbled) + 60, garbled.length, (byte) 0x77);
    assertThat(unread(of(JPX, garbled)).code()).isEqualTo("picture-unread");
  }

  @Test
  void picturesThatClaimToBeHugeAreNotDecoded() throws IOException {
    byte[] jp2 = PdfPictures.jp2(false);
    ByteBuffer.wrap(jp2).putInt(PdfPictures.sizes(jp2), 60_000);
    ByteBuffer.wrap(jp2).putInt(PdfPictures.sizes(jp2) + 4, 60_000);
    for (Maker maker :
        List.of(
            of(JPX, jp2),
            of(JPX, PdfPictures.codestream(jp2)),
            of(JBIG2, PdfPictures.jbig2(60_000, 60_000, 100, 100)),
            of(JBIG2, PdfPictures.jbig2(100, 100, 60_000, 60_000)))) {
      Finding finding = unread(maker);
      assertThat(finding.code()).isEqualTo("too-large");
      assertThat(finding.text()).contains("60000 x 60000");
    }
  }

  /** Sizes of one's own in Jpeg 2000: many small tiles, many components, offsets beyond the end. */
  @Test
  void otherWaysToClaimTooMuchInJpeg2000() throws IOException {
    byte[] tiles = PdfPictures.jp2(false);
    ByteBuffer.wrap(tiles).putInt(PdfPictures.sizes(tiles) + 16, 1);
    ByteBuffer.wrap(tiles).putInt(PdfPictures.sizes(tiles) + 20, 1);
    byte[] components = PdfPictures.jp2(false);
    ByteBuffer.wrap(components).putShort(PdfPictures.sizes(components) + 32, (short) 16_384);
    byte[] offset = PdfPictures.jp2(false);
    ByteBuffer.wrap(offset).putInt(PdfPictures.sizes(offset) + 8, 0xffff_0000);
    for (byte[] data : List.of(tiles, components, offset)) {
      assertThat(unread(of(JPX, data)).code()).isEqualTo("picture-unread");
    }
  }

  @Test
  void aSmallPictureThatCantBeReadLeavesThePageWithAWarning() throws IOException {
    List<PageResult> results;
    try (PDDocument d = new PDDocument()) {
      PdfPictures.page(d, PdfPictures.picture(d, JPX, new byte[20]), 30, 30);
      results = read(d);
    }
    assertThat(results).hasSize(1);
    assertThat(results.get(0)).isInstanceOf(PageResult.Loaded.class);
    assertThat(results.get(0).findings())
        .filteredOn(f -> f.code().equals("picture-unread"))
        .singleElement()
        .satisfies(f -> assertThat(f.severity()).isEqualTo(Severity.DOUBT))
        .satisfies(f -> assertThat(f.text()).startsWith("book.pdf: ").contains("page 1"));
  }

  private static byte[] cut(byte[] whole, double part) {
    return Arrays.copyOf(whole, (int) (part * whole.length));
  }

  private static byte[] flate() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    byte[] noise = new byte[PdfPictures.WIDE * PdfPictures.HIGH];
    new java.util.Random(3).nextBytes(noise);
    try (DeflaterOutputStream deflate = new DeflaterOutputStream(out)) {
      deflate.write(noise);
    }
    return out.toByteArray();
  }

  private static byte[] jpeg() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(PdfPictures.block(BufferedImage.TYPE_BYTE_GRAY), "jpg", out);
    return out.toByteArray();
  }
}
