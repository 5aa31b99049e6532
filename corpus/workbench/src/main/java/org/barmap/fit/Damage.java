package org.barmap.fit;

import java.nio.file.Path;
import java.util.Optional;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.page.PageSource;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;

/** Ways to make a worse copy of a page, each so bad that some barlines are missed on it. */
enum Damage {
  /** A coarse scan with noise, enlarged again: three pixels a staff space. */
  COARSE("coarse") {
    @Override
    void make(Mat gray, double space) {
      coarse(gray, 3 / space);
    }
  },

  /** The same with two and a half. */
  COARSER("coarser") {
    @Override
    void make(Mat gray, double space) {
      coarse(gray, 2.5 / space);
    }
  },

  /** Print so faint that it hardly stands out from the paper's noise. */
  FAINT("faint") {
    @Override
    void make(Mat gray, double space) {
      Imgproc.GaussianBlur(gray, gray, new Size(0, 0), space * 0.12);
      add(gray, 0.2, 188, 14);
    }
  },

  /** Fainter still. */
  FAINTER("fainter") {
    @Override
    void make(Mat gray, double space) {
      Imgproc.GaussianBlur(gray, gray, new Size(0, 0), space * 0.12);
      add(gray, 0.185, 191, 14);
    }
  },

  /** A copy of black and white whose ink is gone in patches. */
  DROPPED(Traces.DROPPED) {
    @Override
    void make(Mat gray, double space) {
      Mat few = new Mat(12, 10, CvType.CV_32F);
      Core.randn(few, 0, 18);
      Mat patches = new Mat();
      Imgproc.resize(few, patches, gray.size(), 0, 0, Imgproc.INTER_CUBIC);
      Mat noise = new Mat(gray.size(), CvType.CV_32F);
      Core.randn(noise, 18, 22);
      Imgproc.GaussianBlur(noise, noise, new Size(0, 0), 0.8);
      Core.add(noise, patches, noise);
      Imgproc.GaussianBlur(gray, gray, new Size(0, 0), space * 0.1);
      Core.add(gray, noise, gray, new Mat(), CvType.CV_8U);
      Imgproc.threshold(gray, gray, 150, 255, Imgproc.THRESH_BINARY);
    }
  };

  private final String says;

  Damage(String says) {
    this.says = says;
  }

  String says() {
    return says;
  }

  abstract void make(Mat gray, double space);

  private static void coarse(Mat gray, double scale) {
    Size full = gray.size();
    Size few = new Size(Math.round(gray.cols() * scale), Math.round(gray.rows() * scale));
    Imgproc.resize(gray, gray, few, 0, 0, Imgproc.INTER_AREA);
    add(gray, 1, 0, 18);
    Imgproc.resize(gray, gray, full, 0, 0, Imgproc.INTER_CUBIC);
  }

  private static void add(Mat gray, double contrast, double light, double spread) {
    Mat noise = new Mat(gray.size(), CvType.CV_32F);
    Core.randn(noise, light, spread);
    Mat bent = new Mat();
    gray.convertTo(bent, CvType.CV_32F, contrast, 0);
    Core.add(bent, noise, gray, new Mat(), CvType.CV_8U);
  }

  /** Writes a worse copy; empty for a page whose file says that it is turned. */
  Optional<Path> copy(Labelled page, Path folder, long seed) {
    new PageSource(java.util.List.of()).close(); // loads OpenCV
    Path source =
        CorpusReadings.HOME.resolve("pages").resolve(page.truth().at("/pages/0/source").asString());
    Mat gray =
        Imgcodecs.imread(
            source.toString(), Imgcodecs.IMREAD_GRAYSCALE | Imgcodecs.IMREAD_IGNORE_ORIENTATION);
    if (gray.cols() != page.truth().at("/pages/0/width").asInt()) {
      return Optional.empty();
    }
    Core.setRNGSeed((int) seed);
    make(gray, page.truth().at("/pages/0/systems/0/staffSpace").asDouble());
    Path out = folder.resolve(page.name() + ".png");
    Imgcodecs.imwrite(out.toString(), gray);
    gray.release();
    return Optional.of(out);
  }
}
