package org.barmap.page.file;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.barmap.page.pixel.Mats;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.Scalar;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;

/** A PNG or JPEG file: one page. */
public final class Picture implements Document {

  private static final int COLOURS = 3;

  /** Gray levels of 16 bits in one of 8. */
  private static final double TO_EIGHT_BITS = 257;

  private final byte[] bytes;
  private final boolean png;

  private Picture(byte[] bytes, boolean png) {
    this.bytes = bytes;
    this.png = png;
  }

  /** Reads a PNG. */
  public static Picture png(byte[] bytes) throws UnreadableException {
    check(PictureHeader.png(bytes));
    return new Picture(bytes, true);
  }

  /** Reads a JPEG. */
  public static Picture jpeg(byte[] bytes) throws UnreadableException {
    check(PictureHeader.jpeg(bytes));
    return new Picture(bytes, false);
  }

  private static void check(PictureHeader header) throws UnreadableException {
    checkSize(header);
    if (!header.complete()) {
      throw PictureHeader.broken();
    }
  }

  private static void checkSize(PictureHeader header) throws UnreadableException {
    Document.checkPage(header.width(), header.height());
    if (Limits.STANDARD.step(header.width(), header.height(), header.bytesOfPixel()) > 1) {
      throw Document.tooLarge(header.width(), header.height(), header.bytesOfPixel());
    }
  }

  @Override
  public int pages() {
    return 1;
  }

  @Override
  public boolean isPicture() {
    return true;
  }

  @Override
  public Mat page(int index) throws UnreadableException {
    try (Mats scope = new Mats()) {
      Mat data = scope.keep(new MatOfByte(bytes));
      // Reading a JPEG as gray also applies its EXIF orientation; a PNG may be see-through.
      Mat read =
          scope.keep(
              Imgcodecs.imdecode(
                  data, png ? Imgcodecs.IMREAD_UNCHANGED : Imgcodecs.IMREAD_GRAYSCALE));
      if (read.empty()) {
        throw PictureHeader.damaged();
      }
      return scope.release(toGray(read, scope));
    } catch (org.opencv.core.CvException e) {
      throw PictureHeader.damaged();
    }
  }

  /**
   * A picture as it is shown.
   *
   * @param pixels gray or colour, 8 bits; a JPEG may have been decoded smaller than it is
   * @param width of the whole picture, upright, pixels
   * @param height pixels
   */
  public record Shown(Mat pixels, int width, int height) {}

  /**
   * Decodes a PNG or JPEG as it looks: upright, in colour where it has some; what is see-through
   * and what has 16 bits in gray.
   *
   * @param least so many pixels of its width are needed; a JPEG that is much larger is decoded at a
   *     half, a quarter or an eighth, which takes a part of the time
   * @param scope owns the pixels
   * @throws UnreadableException also for one that is larger than an upload may be
   */
  public static Shown shown(byte[] bytes, int least, Mats scope) throws UnreadableException {
    Mat data = scope.keep(new MatOfByte(bytes));
    // as ISO/IEC 15948 has it; what else is kept as a picture is a JPEG
    boolean png = bytes.length > 1 && (bytes[0] & 0xff) == 0x89 && bytes[1] == 'P';
    return png ? png(bytes, data, scope) : jpeg(bytes, data, least, scope);
  }

  private static Shown png(byte[] bytes, Mat data, Mats scope) throws UnreadableException {
    checkSize(PictureHeader.png(bytes));
    Mat read = decoded(data, Imgcodecs.IMREAD_UNCHANGED, scope);
    if (read.depth() != CvType.CV_8U || read.channels() > COLOURS) {
      return whole(toGray(read, scope));
    }
    // read unchanged it lies as it is stored; seldom a PNG says that it is to be turned
    boolean turned = new String(bytes, StandardCharsets.ISO_8859_1).contains("eXIf");
    return whole(turned ? decoded(data, Imgcodecs.IMREAD_COLOR, scope) : read);
  }

  private static Shown jpeg(byte[] bytes, Mat data, int least, Mats scope)
      throws UnreadableException {
    PictureHeader header = PictureHeader.jpeg(bytes);
    checkSize(header);
    int narrow = Math.min(header.width(), header.height());
    int flags = Imgcodecs.IMREAD_ANYCOLOR;
    if (narrow / 8 >= least) {
      flags |= Imgcodecs.IMREAD_REDUCED_GRAYSCALE_8;
    } else if (narrow / 4 >= least) {
      flags |= Imgcodecs.IMREAD_REDUCED_GRAYSCALE_4;
    } else if (narrow / 2 >= least) {
      flags |= Imgcodecs.IMREAD_REDUCED_GRAYSCALE_2;
    }
    Mat read = decoded(data, flags, scope);
    boolean lying = header.width() > header.height();
    boolean turned = lying != read.cols() > read.rows() && header.width() != header.height();
    return turned
        ? new Shown(read, header.height(), header.width())
        : new Shown(read, header.width(), header.height());
  }

  private static Shown whole(Mat read) {
    return new Shown(read, read.cols(), read.rows());
  }

  private static Mat decoded(Mat data, int flags, Mats scope) throws UnreadableException {
    Mat read = scope.keep(Imgcodecs.imdecode(data, flags));
    if (read.empty()) {
      throw PictureHeader.damaged();
    }
    return read;
  }

  /** Brings 8- or 16-bit gray, colour and see-through colour to 8-bit gray on white. */
  public static Mat toGray(Mat read, Mats scope) {
    Mat eight = read;
    if (read.depth() == CvType.CV_16U) {
      eight = scope.mat();
      read.convertTo(eight, CvType.CV_8U, 1 / TO_EIGHT_BITS);
    }
    if (eight.channels() == 1) {
      return eight;
    }
    Mat gray = scope.mat();
    if (eight.channels() == COLOURS) {
      Imgproc.cvtColor(eight, gray, Imgproc.COLOR_BGR2GRAY);
      return gray;
    }
    Imgproc.cvtColor(eight, gray, Imgproc.COLOR_BGRA2GRAY);
    List<Mat> planes = new ArrayList<>();
    Core.split(eight, planes);
    planes.forEach(scope::keep);
    Mat alpha = planes.get(3);
    if (Core.minMaxLoc(alpha).minVal >= 255) {
      return gray;
    }
    // On white: gray * alpha + 255 * (1 - alpha).
    Mat paper = scope.mat();
    Core.bitwise_not(alpha, paper);
    Core.multiply(gray, alpha, gray, 1 / 255.0);
    Core.add(gray, paper, gray, scope.mat(), CvType.CV_8U);
    return gray;
  }

  @Override
  public void close() {
    // Holds bytes only.
  }

  /** Returns an all-white image; the caller frees it. */
  static Mat white(int width, int height) {
    return new Mat(height, width, CvType.CV_8U, new Scalar(255));
  }
}
