package org.barmap.extract;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.barmap.page.Mats;
import org.barmap.page.PageFiles;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;

/**
 * How long reading takes, against the least any reader must do.
 *
 * @param pages number of pages read
 * @param secondsPerPage median over pages, in a warm process
 * @param floorSecondsPerPage median of decoding the same files and one adaptive threshold
 * @param ratio the first over the second
 * @param peakMiB most memory the process ever held, MiB; 0 where the system doesn't tell
 */
public record Bench(
    int pages, double secondsPerPage, double floorSecondsPerPage, double ratio, double peakMiB) {

  /** Measures; files of one page each (PNG, JPEG) give a true floor. */
  public static Bench read(List<Path> paths) throws IOException {
    List<Path> files = PageFiles.list(paths).files();
    if (files.isEmpty()) {
      throw new IOException("there are no page files to measure with");
    }
    List<Double> reading = new ArrayList<>();
    List<Double> floor = new ArrayList<>();
    try (Extractor extractor = Extractor.open()) {
      // The first rounds load classes and natives and compile; they are not counted.
      for (Path file : files.subList(0, Math.min(3, files.size()))) {
        extractor.read(List.of(file), Options.NONE, Progress.NONE);
        floor(file);
      }
      for (Path file : files) {
        long start = System.nanoTime();
        extractor.read(List.of(file), Options.NONE, Progress.NONE);
        reading.add((System.nanoTime() - start) / 1e9);
        start = System.nanoTime();
        floor(file);
        floor.add((System.nanoTime() - start) / 1e9);
      }
    }
    double page = median(reading);
    double least = median(floor);
    return new Bench(files.size(), page, least, page / least, peak());
  }

  private static void floor(Path file) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    try (Mats scope = new Mats()) {
      MatOfByte packed = new MatOfByte(bytes);
      scope.keep(packed);
      Mat gray = scope.keep(Imgcodecs.imdecode(packed, Imgcodecs.IMREAD_GRAYSCALE));
      if (!gray.empty()) {
        Mat ink = scope.mat();
        Imgproc.adaptiveThreshold(
            gray, ink, 255, Imgproc.ADAPTIVE_THRESH_MEAN_C, Imgproc.THRESH_BINARY_INV, 51, 12);
      }
    }
  }

  private static double median(List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    int n = sorted.size();
    return (sorted.get((n - 1) / 2) + sorted.get(n / 2)) / 2;
  }

  private static double peak() throws IOException {
    Path status = Path.of("/proc/self/status");
    if (!Files.isReadable(status)) {
      return 0;
    }
    for (String line : Files.readAllLines(status)) {
      if (line.startsWith("VmHWM:")) {
        return Double.parseDouble(line.replaceAll("[^0-9]", "")) / 1024;
      }
    }
    return 0;
  }
}
