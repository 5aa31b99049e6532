package org.barmap.bench;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.barmap.extract.Extractor;
import org.barmap.extract.Options;
import org.barmap.extract.Progress;
import org.barmap.page.file.PageFiles;
import org.barmap.page.pixel.WorkStep;

/**
 * How long reading takes, against the least any reader must do.
 *
 * @param pages number of page files read
 * @param secondsPerPage median over single pages read alone, from file to bar map, in a warm
 *     process
 * @param floorSecondsPerPage median of decoding the same files in the same way and one adaptive
 *     threshold
 * @param ratio the first over the second
 * @param cpuSecondsPerPage mean processor time of a page, all threads together
 * @param bookSecondsPerPage mean of a page when all of them are read as one book
 * @param peakMiB most memory the process ever held, MiB; 0 where the system doesn't tell
 * @param stages mean processor time of a page in each step of reading, seconds
 */
record ReadBench(
    int pages,
    double secondsPerPage,
    double floorSecondsPerPage,
    double ratio,
    double cpuSecondsPerPage,
    double bookSecondsPerPage,
    double peakMiB,
    Map<String, Double> stages) {

  /** How often everything is measured. */
  private static final int ROUNDS = 3;

  /**
   * Files read and not counted at first: classes, natives and models load, code is compiled. After
   * a dozen the compiler still took 40 ms of processor time a page.
   */
  private static final int WARM_UP = 60;

  /** Takes a defensive copy. */
  ReadBench {
    stages = Collections.unmodifiableMap(new LinkedHashMap<>(stages));
  }

  /** Measures; files of one page each (PNG, JPEG) give figures by the page. */
  static ReadBench read(List<Path> paths) throws IOException {
    List<Path> files = PageFiles.list(paths).files();
    if (files.isEmpty()) {
      throw new IOException("there are no page files to measure with");
    }
    List<Double> reading = new ArrayList<>();
    List<Double> floor = new ArrayList<>();
    try (Extractor extractor = Extractor.open()) {
      for (int i = 0; i < WARM_UP; i++) {
        page(extractor, files.get(i % files.size()));
        PageFloor.measure(files.get(i % files.size()));
      }
      Map<WorkStep, Double> before = WorkStep.seconds();
      double cpu = 0;
      for (int round = 0; round < ROUNDS; round++) {
        for (Path file : files) {
          double start = cpuSeconds();
          reading.add(page(extractor, file));
          cpu += cpuSeconds() - start;
          long begun = System.nanoTime();
          PageFloor.measure(file);
          floor.add((System.nanoTime() - begun) / 1e9);
        }
      }
      Map<String, Double> stages = new LinkedHashMap<>();
      WorkStep.seconds()
          .forEach(
              (s, t) -> stages.put(s.word(), (t - before.getOrDefault(s, 0.0)) / reading.size()));
      long begun = System.nanoTime();
      extractor.read(files, Options.NONE, Progress.NONE);
      double book = (System.nanoTime() - begun) / 1e9 / files.size();
      double page = median(reading);
      double least = median(floor);
      return new ReadBench(
          files.size(), page, least, page / least, cpu / reading.size(), book, peak(), stages);
    }
  }

  private static double page(Extractor extractor, Path file) {
    long start = System.nanoTime();
    extractor.read(List.of(file), Options.NONE, Progress.NONE);
    return (System.nanoTime() - start) / 1e9;
  }

  private static double cpuSeconds() {
    return ManagementFactory.getOperatingSystemMXBean() instanceof OperatingSystemMXBean system
        ? system.getProcessCpuTime() / 1e9
        : 0;
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
