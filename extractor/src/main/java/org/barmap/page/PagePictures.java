package org.barmap.page;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.barmap.map.Finding;
import org.barmap.page.file.Document;
import org.barmap.page.file.Guarded;
import org.barmap.page.file.Picture;
import org.barmap.page.file.UnreadableException;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Core;
import org.opencv.core.CvException;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.MatOfInt;
import org.opencv.core.Rect;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;

/**
 * Makes the pictures a browser shows: one for each page of a file, and smaller ones of them.
 *
 * <p>A picture's pixels are the pixels of the bar map.
 */
public final class PagePictures {

  /** The most pages a book may have, and a file. */
  public static final int MAX_PAGES = Document.MAX_PAGES;

  private static final PageSettings.Light SET = PageSettings.STANDARD.light();

  private static final int JPEG_QUALITY = 85;

  private PagePictures() {}

  /** Takes what becomes of the pages of a file. */
  public interface Taker {

    /**
     * Takes a page.
     *
     * @param number 1 for the first page of the file
     * @param png its picture; empty when the file itself is one
     * @param width pixels, after any EXIF orientation
     * @param height pixels
     * @param flaw what was left out of the picture
     * @throws IOException when the picture can't be kept
     */
    void page(int number, Optional<byte[]> png, int width, int height, Optional<Finding> flaw)
        throws IOException;

    /** Takes what is wrong with the file, or with a page of it. */
    void failed(Finding finding);
  }

  /**
   * Counts the pages of a file, those inside a PDF or a TIFF among them.
   *
   * @return 1 for a file that can't be opened: it takes the place where it says why
   */
  public static int count(Path file) {
    try (Document document = PageSource.document(file)) {
      return document.pages();
    } catch (UnreadableException e) {
      return e.pages().orElse(1);
    }
  }

  /**
   * Opens a file and hands out its pages in order, one at a time in memory.
   *
   * @param file PNG, JPEG, TIFF or PDF
   * @param name what the player calls it
   * @param from the first page wanted, from 0
   * @throws IOException only what the taker throws
   */
  public static void expand(Path file, String name, int from, Taker taker) throws IOException {
    try (Document document = PageSource.document(file)) {
      boolean own = document.isPicture();
      for (int i = from; i < document.pages(); i++) {
        String what = "page " + (i + 1);
        try (Mats scope = new Mats()) {
          Mat gray = scope.keep(document.page(i));
          Optional<byte[]> png =
              own ? Optional.empty() : Guarded.plainly(what, () -> Optional.of(png(gray, scope)));
          Optional<Finding> flaw = document.flaw().map(f -> f.doubt(name));
          taker.page(i + 1, png, gray.cols(), gray.rows(), flaw);
        } catch (UnreadableException e) {
          taker.failed(e.finding(name));
        }
      }
    } catch (UnreadableException e) {
      taker.failed(e.finding(name));
    }
  }

  private static byte[] png(Mat gray, Mats scope) {
    Mat out = scope.mat();
    MatOfByte bytes = new MatOfByte();
    scope.keep(bytes);
    gray.copyTo(out);
    Imgcodecs.imencode(".png", out, bytes);
    return bytes.toArray();
  }

  /**
   * Returns a picture made smaller, as JPEG; never larger than it is.
   *
   * @param picture PNG or JPEG
   * @param width wanted, pixels
   * @throws IOException when the picture can't be read
   */
  public static byte[] scaled(Path picture, int width) throws IOException {
    try (Mats scope = new Mats()) {
      return jpeg(Picture.shown(Files.readAllBytes(picture), width, scope), width, scope);
    } catch (UnreadableException e) {
      throw new IOException("the picture is damaged", e);
    } catch (CvException e) {
      throw new IOException("the picture can't be made smaller", e);
    }
  }

  /**
   * A part of a picture, in pixels.
   *
   * @param left at its left edge
   * @param top at its upper edge
   * @param right at its right edge
   * @param bottom at its lower edge
   */
  public record Region(double left, double top, double right, double bottom) {}

  /**
   * Returns a part of a picture, as JPEG; what lies outside the picture is left out.
   *
   * @param picture PNG or JPEG
   * @param width wanted, pixels; never larger than the part is
   * @throws IOException when the picture can't be read, or the part lies outside it
   */
  public static byte[] part(Path picture, Region part, int width) throws IOException {
    try (Mats scope = new Mats()) {
      return jpeg(cut(picture, part, scope), width, scope);
    } catch (CvException e) {
      throw new IOException("the picture can't be cut", e);
    }
  }

  /**
   * Returns a part of a picture in black on white, as JPEG: the light on the page taken away, so
   * that it can be printed.
   *
   * @param picture PNG or JPEG
   * @param staffSpace distance of two staff lines; pixels
   * @param width wanted, pixels; never larger than the part is
   * @throws IOException when the picture can't be read, or the part lies outside it
   */
  public static byte[] forPaper(Path picture, Region part, double staffSpace, int width)
      throws IOException {
    try (Mats scope = new Mats()) {
      Mat cut = cut(picture, part, scope);
      Mat gray = cut;
      if (cut.channels() > 1) {
        gray = scope.mat();
        Imgproc.cvtColor(cut, gray, Imgproc.COLOR_BGR2GRAY);
      }
      // paper is what is left when everything as thin as a note head is closed
      int side = 2 * (int) Math.max(SET.leastPrint(), SET.print() * staffSpace) + 1;
      Mat kernel =
          scope.keep(Imgproc.getStructuringElement(Imgproc.MORPH_RECT, new Size(side, side)));
      Mat paper = scope.mat();
      Imgproc.morphologyEx(gray, paper, Imgproc.MORPH_CLOSE, kernel);
      Imgproc.blur(paper, paper, new Size(side, side));
      Mat flat = scope.mat();
      Core.divide(gray, paper, flat, 255);
      return jpeg(flat, width, scope);
    } catch (CvException e) {
      throw new IOException("the picture can't be cut", e);
    }
  }

  private static Mat cut(Path picture, Region part, Mats scope) throws IOException {
    Mat whole = read(picture, scope);
    int x0 = (int) Math.max(0, Math.floor(part.left()));
    int y0 = (int) Math.max(0, Math.floor(part.top()));
    int x1 = (int) Math.min(whole.cols(), Math.ceil(part.right()));
    int y1 = (int) Math.min(whole.rows(), Math.ceil(part.bottom()));
    if (x1 <= x0 || y1 <= y0) {
      throw new IOException("the part lies outside the picture");
    }
    return scope.keep(whole.submat(new Rect(x0, y0, x1 - x0, y1 - y0)));
  }

  private static Mat read(Path picture, Mats scope) throws IOException {
    try {
      return Picture.shown(Files.readAllBytes(picture), Integer.MAX_VALUE, scope).pixels();
    } catch (UnreadableException e) {
      throw new IOException("the picture is damaged", e);
    }
  }

  private static byte[] jpeg(Mat from, int width, Mats scope) {
    return jpeg(new Picture.Shown(from, from.cols(), from.rows()), width, scope);
  }

  private static byte[] jpeg(Picture.Shown from, int width, Mats scope) {
    Mat small = from.pixels();
    if (width < from.width()) {
      small = scope.mat();
      double scale = (double) Math.max(1, width) / from.width();
      Size size = new Size(Math.max(1, width), Math.max(1, Math.rint(from.height() * scale)));
      Imgproc.resize(from.pixels(), small, size, 0, 0, Imgproc.INTER_AREA);
    }
    MatOfByte bytes = new MatOfByte();
    scope.keep(bytes);
    MatOfInt options = new MatOfInt(Imgcodecs.IMWRITE_JPEG_QUALITY, JPEG_QUALITY);
    scope.keep(options);
    Imgcodecs.imencode(".jpg", small, bytes, options);
    return bytes.toArray();
  }
}
