package org.barmap.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriter;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.image.LosslessFactory;
import org.barmap.map.Point;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;

/** Each format gives the page as it looks, in its own pixels. */
class FormatsTest {

  @TempDir Path dir;

  private static PagePainter page() {
    PagePainter p = new PagePainter(1200, 800);
    return p.staff(70, 1130, 180, 13).staff(70, 1130, 380, 13).staff(70, 1130, 580, 13);
  }

  private static List<PageImage> read(Path file) {
    List<PageImage> pages = new ArrayList<>();
    try (PageSource source = new PageSource(List.of(file))) {
      while (source.hasNext()) {
        PageResult result = source.next();
        assertThat(result).as("%s", result.findings()).isInstanceOf(PageResult.Loaded.class);
        pages.add(((PageResult.Loaded) result).page());
      }
    }
    return pages;
  }

  private static double gray(PageImage page, double fileX, double fileY) {
    Point p = page.toWork(fileX, fileY);
    return page.gray().get((int) p.y(), (int) p.x())[0];
  }

  private static void looksPainted(PageImage page) {
    // Top line of the first staff, and the paper between lines, at a place without notes.
    assertThat(gray(page, 72, 180 - 26 + 0.3)).isLessThan(140);
    assertThat(gray(page, 72, 180 - 19.5)).isGreaterThan(220);
    assertThat(page.staffSpace()).isGreaterThan(11).isLessThan(23);
    Point there = page.toWork(300, 200);
    Point back = page.toFile(there.x(), there.y());
    assertThat(back.distance(new Point(300, 200))).isLessThan(1e-6);
  }

  @Test
  void pngWithTransparencyIsReadOnWhite() throws IOException {
    BufferedImage image = new BufferedImage(1200, 800, BufferedImage.TYPE_INT_ARGB);
    try (PagePainter p = page()) {
      for (int y = 0; y < 800; y++) {
        for (int x = 0; x < 1200; x++) {
          int ink = 255 - (int) p.image().get(y, x)[0];
          image.setRGB(x, y, ink << 24);
        }
      }
    }
    Path file = dir.resolve("clear.png");
    ImageIO.write(image, "png", file.toFile());
    List<PageImage> pages = read(file);
    assertThat(pages).hasSize(1);
    try (PageImage page = pages.get(0)) {
      assertThat(page.width()).isEqualTo(1200);
      assertThat(page.height()).isEqualTo(800);
      looksPainted(page);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8})
  void jpegIsReadAsItsExifOrientationSays(int orientation) throws IOException {
    Path file = dir.resolve("exif" + orientation + ".jpg");
    try (PagePainter p = page();
        Mats scope = new Mats()) {
      Mat stored = stored(p.image(), orientation, scope);
      MatOfByte jpeg = new MatOfByte();
      Imgcodecs.imencode(".jpg", stored, jpeg);
      Files.write(file, withOrientation(jpeg.toArray(), orientation));
      jpeg.release();
    }
    try (PageImage page = read(file).get(0)) {
      assertThat(page.width()).isEqualTo(1200);
      assertThat(page.height()).isEqualTo(800);
      looksPainted(page);
    }
    // decoded at a half of its size on the way
    try (PagePainter p = page()) {
      assertShownSmaller(p.image(), file);
    }
  }

  /** What is shown in a browser, against the picture as it was painted. */
  private static void assertShownSmaller(Mat painted, Path file) throws IOException {
    try (Mats scope = new Mats()) {
      MatOfByte jpeg = new MatOfByte(PagePictures.scaled(file, 300));
      scope.keep(jpeg);
      Mat shown = scope.keep(Imgcodecs.imdecode(jpeg, Imgcodecs.IMREAD_GRAYSCALE));
      Mat expected = scope.mat();
      Imgproc.resize(painted, expected, new Size(300, 200), 0, 0, Imgproc.INTER_AREA);
      assertThat(shown.size()).isEqualTo(expected.size());
      Mat difference = scope.mat();
      Core.absdiff(shown, expected, difference);
      assertThat(Core.mean(difference).val[0]).as("gray levels").isLessThan(4);
    }
  }

  @Test
  void aPictureInColourIsShownInColour() throws IOException {
    for (String ending : List.of(".png", ".jpg")) {
      Path file = dir.resolve("red" + ending);
      try (Mats scope = new Mats()) {
        Mat red = scope.keep(new Mat(800, 1200, CvType.CV_8UC3, new Scalar(0, 0, 200)));
        Imgcodecs.imwrite(file.toString(), red);
        MatOfByte jpeg = new MatOfByte(PagePictures.scaled(file, 100));
        scope.keep(jpeg);
        Mat shown = scope.keep(Imgcodecs.imdecode(jpeg, Imgcodecs.IMREAD_COLOR));
        assertThat(shown.size()).isEqualTo(new Size(100, 67));
        double[] mean = Core.mean(shown).val;
        assertThat(mean[2]).as(ending).isGreaterThan(180);
        assertThat(mean[0] + mean[1]).as(ending).isLessThan(20);
      }
    }
  }

  /** Undoes what a viewer does for an orientation (Exif 2.3, tag 274): 1 upright, 6 turn right … */
  private static Mat stored(Mat upright, int orientation, Mats scope) {
    Mat m = scope.mat();
    switch (orientation) {
      case 2 -> Core.flip(upright, m, 1);
      case 3 -> Core.rotate(upright, m, Core.ROTATE_180);
      case 4 -> Core.flip(upright, m, 0);
      case 5 -> Core.transpose(upright, m);
      case 6 -> Core.rotate(upright, m, Core.ROTATE_90_COUNTERCLOCKWISE);
      case 7 -> {
        Core.transpose(upright, m);
        Core.rotate(m, m, Core.ROTATE_180);
      }
      case 8 -> Core.rotate(upright, m, Core.ROTATE_90_CLOCKWISE);
      default -> upright.copyTo(m);
    }
    return m;
  }

  private static byte[] withOrientation(byte[] jpeg, int orientation) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(jpeg, 0, 2);
    byte[] exif = {
      (byte) 0xff,
      (byte) 0xe1,
      0,
      34,
      'E',
      'x',
      'i',
      'f',
      0,
      0,
      'M',
      'M',
      0,
      42,
      0,
      0,
      0,
      8,
      0,
      1,
      1,
      18,
      0,
      3,
      0,
      0,
      0,
      1,
      0,
      (byte) orientation,
      0,
      0,
      0,
      0,
      0,
      0
    };
    out.write(exif);
    out.write(jpeg, 2, jpeg.length - 2);
    return out.toByteArray();
  }

  @Test
  void everyPageOfATiff() throws IOException {
    Path file = dir.resolve("scan.tif");
    ImageWriter writer = ImageIO.getImageWritersByFormatName("TIFF").next();
    try (PagePainter p = page();
        var out = ImageIO.createImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      writer.prepareWriteSequence(null);
      writer.writeToSequence(
          new IIOImage(picture(p, BufferedImage.TYPE_BYTE_BINARY), null, null), null);
      writer.writeToSequence(
          new IIOImage(picture(p, BufferedImage.TYPE_INT_RGB), null, null), null);
      writer.endWriteSequence();
    }
    writer.dispose();
    List<PageImage> pages = read(file);
    assertThat(pages).extracting(PageImage::indexInSource).containsExactly(1, 2);
    for (PageImage page : pages) {
      looksPainted(page);
      page.close();
    }
  }

  private static BufferedImage picture(PagePainter p, int type) {
    BufferedImage image = new BufferedImage(1200, 800, type);
    for (int y = 0; y < 800; y++) {
      for (int x = 0; x < 1200; x++) {
        int g = (int) p.image().get(y, x)[0];
        image.setRGB(x, y, new Color(g, g, g).getRGB());
      }
    }
    return image;
  }

  @Test
  void aPdfScanKeepsItsResolutionAndADrawnPageGets300Dpi() throws IOException {
    Path file = dir.resolve("book.pdf");
    try (PDDocument d = new PDDocument();
        PagePainter p = page()) {
      PDPage scan = new PDPage(new PDRectangle(1200 * 72 / 150f, 800 * 72 / 150f));
      d.addPage(scan);
      var image = LosslessFactory.createFromImage(d, picture(p, BufferedImage.TYPE_BYTE_GRAY));
      try (var c = new PDPageContentStream(d, scan)) {
        c.drawImage(image, 0, 0, scan.getMediaBox().getWidth(), scan.getMediaBox().getHeight());
      }
      PDPage drawn = new PDPage(PDRectangle.A4);
      d.addPage(drawn);
      try (var c = new PDPageContentStream(d, drawn)) {
        c.setLineWidth(0.5f);
        for (int k = 0; k < 5; k++) {
          c.moveTo(50, 700 - 5 * k);
          c.lineTo(550, 700 - 5 * k);
        }
        c.stroke();
      }
      d.save(file.toFile());
    }
    List<PageImage> pages = read(file);
    assertThat(pages).hasSize(2);
    try (PageImage scan = pages.get(0);
        PageImage drawn = pages.get(1)) {
      assertThat(scan.width()).isBetween(1199, 1201);
      looksPainted(scan);
      assertThat(drawn.width()).isBetween(2478, 2481);
      assertThat(drawn.height()).isBetween(3507, 3509);
    }
  }

  @Test
  void aBlurredPageIsSaidToBeSo() {
    try (PagePainter p = page()) {
      p.blur(6);
      PageResult result = Upright.pages("b.png", 1, p.image().clone()).get(0);
      assertThat(result.findings()).extracting(f -> f.code()).containsExactly("blurred");
      ((PageResult.Loaded) result).page().close();
    }
    try (PagePainter p = page()) {
      p.blur(1);
      PageResult result = Upright.pages("b.png", 1, p.image().clone()).get(0);
      assertThat(result.findings()).isEmpty();
      ((PageResult.Loaded) result).page().close();
    }
  }
}
