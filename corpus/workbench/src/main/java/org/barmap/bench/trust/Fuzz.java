package org.barmap.bench.trust;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;
import org.barmap.bench.trust.Asked.Answer;
import org.barmap.bench.trust.Asked.Sent;
import tools.jackson.databind.JsonNode;

/**
 * Sends broken files to a service: pictures and documents with bytes changed by chance. It has to
 * answer each, to live, to write no trace into an answer, and to have its memory back.
 */
public final class Fuzz {

  /** As many files in an upload, and in a book. */
  private static final int AT_ONCE = 20;

  private static final int OF_A_BOOK = 500;
  private static final int SIZE = 120;

  private final Random random;
  private final Tally tally = new Tally();
  private final Served served;

  private Fuzz(long seed, List<String> options) throws IOException {
    random = new Random(seed);
    served = new Served(options);
  }

  /**
   * Runs it.
   *
   * @param options of {@code barmap serve}, for another store
   */
  public static Map<String, Object> run(int cases, long seed, List<String> options)
      throws IOException {
    Fuzz fuzz = new Fuzz(seed, options);
    try (Served ends = fuzz.served) {
      return fuzz.figures(cases);
    }
  }

  private Map<String, Object> figures(int cases) throws IOException {
    List<Sent> seeds = seeds();
    long pid = served.pid();
    // once through everything, so that what is loaded once is there already
    send(seeds, OF_A_BOOK);
    Memory before = Memory.of(served);
    long begun = System.nanoTime();
    send(seeds, cases);
    long seconds = TimeUnit.NANOSECONDS.toSeconds(System.nanoTime() - begun);
    Memory after = Memory.of(served);
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("cases", cases);
    figures.put("seconds", seconds);
    figures.put("crashes", served.isAlive() && served.pid() == pid ? 0 : 1);
    figures.put("traces", tally.of("traces"));
    figures.put("serverErrors", tally.of("server errors"));
    figures.put("before", before.told());
    figures.put("after", after.told());
    tally.counts().forEach(figures::putIfAbsent);
    figures.put("wrong", tally.wrong());
    return figures;
  }

  private void send(List<Sent> seeds, int cases) throws IOException {
    String book = "";
    for (int sent = 0; sent < cases; ) {
      if (sent % OF_A_BOOK == 0) {
        remove(book);
        book = served.book("Fuzz");
      }
      List<Sent> files = new ArrayList<>();
      while (files.size() < AT_ONCE && sent < cases) {
        Sent whole = seeds.get(random.nextInt(seeds.size()));
        byte[] bytes = whole.bytes();
        for (int n = 1 + random.nextInt(3); n > 0 && bytes.length > 0; n--) {
          bytes = changed(bytes);
        }
        files.add(new Sent(whole.name(), bytes));
        sent++;
      }
      deliver(book, files);
    }
    remove(book);
  }

  private void deliver(String book, List<Sent> files) throws IOException {
    List<Sent> pages = new ArrayList<>();
    for (Sent file : files) {
      if (file.name().startsWith("page")) {
        pages.add(file);
      } else if (file.name().equals("score.musicxml")) {
        long revision = served.asked().get("/api/books/" + book).revision();
        see(
            served
                .asked()
                .upload(
                    served
                        .asked()
                        .to("/api/books/" + book + "/second")
                        .header("If-Match", "\"" + revision + "\""),
                    List.of(file)));
      } else {
        see(served.asked().upload("/api/books/open", List.of(file)));
      }
    }
    Answer answer = served.asked().upload("/api/books/" + book + "/pages", pages);
    see(answer);
    served.awaitRead(book);
    for (JsonNode page : served.asked().get("/api/books/" + book).json().path("pages")) {
      String finding = page.path("finding").asString("");
      if (isTrace(finding)) {
        tally.wrong("traces", finding);
      }
    }
  }

  private void see(Answer answer) {
    tally.count("answered " + answer.status());
    if (answer.status() >= 500) {
      tally.wrong("server errors", answer.text());
    }
    if (isTrace(answer.text())) {
      tally.wrong("traces", answer.text());
    }
  }

  private static boolean isTrace(String text) {
    return text.contains("Exception") || text.contains("\tat ") || text.contains("java.");
  }

  private void remove(String book) throws IOException {
    if (!book.isEmpty()) {
      for (JsonNode one : served.asked().get("/api/books").json().path("books")) {
        served.asked().change("DELETE", "/api/books/" + one.path("id").asString(""), 0, "");
      }
      served.asked().change("DELETE", "/api/bin", 0, "");
    }
  }

  /** Whole files of every kind that is taken, all of them small. */
  private static List<Sent> seeds() throws IOException {
    List<Sent> seeds = new ArrayList<>();
    BufferedImage gray = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_BYTE_GRAY);
    BufferedImage colour = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_INT_RGB);
    BufferedImage deep = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_USHORT_GRAY);
    for (String format : List.of("png", "jpg", "tif")) {
      for (BufferedImage image : List.of(gray, colour, deep)) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        if (ImageIO.write(image, format, out)) {
          seeds.add(new Sent("page." + format, out.toByteArray()));
        }
      }
    }
    seeds.add(text("page.pdf", PDF));
    seeds.add(text("score.musicxml", SCORE));
    seeds.add(text("map.json", "{\"format\":\"barmap/1\",\"pages\":[],\"bars\":[]}"));
    return seeds;
  }

  private static Sent text(String name, String text) {
    return new Sent(name, text.getBytes(StandardCharsets.ISO_8859_1));
  }

  private static final String PDF =
      "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0"
          + " R]/Count 1>>endobj\n3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 72"
          + " 72]/Contents 4 0 R>>endobj\n4 0 obj<</Length 22>>stream\n0 0 m 50 50 l S 1 w Q"
          + " q\nendstream endobj\ntrailer<</Root 1 0 R/Size 5>>\n%%EOF\n";

  private static final String SCORE =
      "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list><score-part id=\"P1\">"
          + "<part-name>Bass</part-name></score-part></part-list><part id=\"P1\"><measure"
          + " number=\"1\"><note><rest/><duration>4</duration></note></measure></part>"
          + "</score-partwise>";

  /** One change: a bit turned, a byte put in, a piece out or twice, or the end cut off. */
  private byte[] changed(byte[] bytes) {
    int at = random.nextInt(bytes.length);
    int end = Math.min(bytes.length, at + 1 + random.nextInt(40));
    byte[] out = bytes.clone();
    switch (random.nextInt(5)) {
      case 0 -> out[at] ^= (byte) (1 << random.nextInt(8));
      case 1 -> Arrays.fill(out, at, end, (byte) (random.nextBoolean() ? 0 : 0xff));
      case 2 -> out = joined(bytes, at, end);
      case 3 -> out = joined(bytes, end, at);
      default -> out = Arrays.copyOf(bytes, Math.max(1, at));
    }
    return out;
  }

  /** The beginning up to one place and the end from another one on. */
  private static byte[] joined(byte[] bytes, int head, int tail) {
    byte[] out = Arrays.copyOf(bytes, head + bytes.length - tail);
    System.arraycopy(bytes, tail, out, head, bytes.length - tail);
    return out;
  }

  /**
   * What a service holds after everything that nobody needs was let go, in MiB.
   *
   * @param heap in use
   * @param resident of its process
   * @param reader resident of the process that reads
   */
  private record Memory(double heap, double resident, double reader) {

    private static final double MIB = 1024;

    static Memory of(Served served) throws IOException {
      try {
        for (int i = 0; i < 2; i++) {
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "jcmd").toString(),
                  "" + served.pid(),
                  "GC.run")
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start()
              .waitFor();
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IOException("interrupted", e);
      }
      double heap =
          served
              .asked()
              .get("/metrics")
              .text()
              .lines()
              .filter(l -> l.startsWith("jvm_memory_used_bytes{area=\"heap\""))
              .mapToDouble(l -> Double.parseDouble(l.substring(l.lastIndexOf(' ') + 1)))
              .sum();
      double reader = served.reader().isPresent() ? resident(served.reader().get().pid()) : 0;
      return new Memory(heap / MIB / MIB, resident(served.pid()), reader);
    }

    /** As Linux tells it; 0 elsewhere. */
    private static double resident(long pid) throws IOException {
      Path status = Path.of("/proc/" + pid + "/status");
      return Files.exists(status)
          ? Files.readAllLines(status).stream()
              .filter(l -> l.startsWith("VmRSS:"))
              .mapToDouble(l -> Double.parseDouble(l.replaceAll("\\D", "")) / MIB)
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
}
