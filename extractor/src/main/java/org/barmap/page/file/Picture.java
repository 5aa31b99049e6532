package org.barmap.page.file;

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
    Document.checkPage(header.width(), header.height());
    if (Limits.STANDARD.step(header.width(), header.height(), header.bytesOfPixel()) > 1) {
      throw Document.tooLarge(header.width(), header.height(), header.bytesOfPixel());
    }
    if (!header.complete()) {
      throw PictureHeader.broken();
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
