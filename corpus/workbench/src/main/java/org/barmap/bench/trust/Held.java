package org.barmap.bench.trust;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a service and the processes that read for it hold, after everything that nobody needs was
 * let go.
 *
 * @param heap in use, MiB
 * @param resident of its process, MiB
 * @param reader resident of those that read, the mean, MiB
 */
record Held(double heap, double resident, double reader) {

  private static final double KIB = 1024;

  /** A line of them: its number, how many objects, bytes, the class, and perhaps its module. */
  private static final int CLASS = 4;

  private static final String HEAP = "jvm_memory_used_bytes{area=\"heap\"";

  /** Two, since what the first one finds may hold more; then the C library gives back its pages. */
  private static final List<String> LET_GO = List.of("GC.run", "GC.run", "System.trim_native_heap");

  /**
   * Looks.
   *
   * @throws IOException when this Java can't ask another one; that takes {@code jcmd}, so a JDK
   */
  static Held of(Served served) throws IOException {
    List<Long> readers = served.readers().stream().map(ProcessHandle::pid).toList();
    letGo(served.pid());
    for (long reader : readers) {
      letGo(reader);
    }
    double heap =
        served
            .asked()
            .get("/metrics")
            .text()
            .lines()
            .filter(l -> l.startsWith(HEAP))
            .mapToDouble(l -> Double.parseDouble(l.substring(l.lastIndexOf(' ') + 1)))
            .sum();
    double reading = 0;
    for (long reader : readers) {
      reading += resident(reader) / readers.size();
    }
    return new Held(heap / KIB / KIB, resident(served.pid()), reading);
  }

  private static void letGo(long pid) throws IOException {
    for (String what : LET_GO) {
      said(pid, what);
    }
  }

  /** Returns what another Java answers to an order. */
  private static String said(long pid, String order) throws IOException {
    String jcmd = Path.of(System.getProperty("java.home"), "bin", "jcmd").toString();
    Process process = new ProcessBuilder(jcmd, "" + pid, order).redirectErrorStream(true).start();
    return new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
  }

  /** Returns how many bytes the objects of each class take that somebody still holds. */
  static Map<String, Long> classes(Served served) throws IOException {
    Map<String, Long> bytes = new TreeMap<>();
    for (String line : said(served.pid(), "GC.class_histogram").lines().toList()) {
      String[] parts = line.strip().split("\\s+");
      if (parts.length >= CLASS && parts[0].endsWith(":")) {
        bytes.merge(parts[CLASS - 1], Long.valueOf(parts[CLASS - 2]), Long::sum);
      }
    }
    return bytes;
  }

  /** As Linux tells it; 0 elsewhere. */
  private static double resident(long pid) throws IOException {
    Path status = Path.of("/proc/" + pid + "/status");
    return Files.exists(status)
        ? Files.readAllLines(status).stream()
            .filter(l -> l.startsWith("VmRSS:"))
            .mapToDouble(l -> Double.parseDouble(l.replaceAll("\\D", "")) / KIB)
            .sum()
        : 0;
  }

  Map<String, Object> told() {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("heapMiB", Math.round(heap * 10) / 10.0);
    told.put("residentMiB", Math.round(resident));
    told.put("readerResidentMiB", Math.round(reader));
    return told;
  }
}
