package org.barmap.fit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.barmap.edit.Editing;
import org.barmap.edit.Outcome;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.Correction;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.extract.Extractor;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.SecondReading.Part;
import org.barmap.map.Severity;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.Reckoner;
import org.barmap.reckon.SecondEvidence;
import org.barmap.score.Comparison;
import org.barmap.score.Figures;
import org.barmap.sign.ReadPage;
import org.barmap.work.engine.EngineLimits;
import org.barmap.work.engine.EngineReading;
import tools.jackson.databind.JsonNode;

/**
 * What a second reader saves: {@code barmap fit engines} reads the corpus, and worse copies of its
 * clean pages, with a {@link StandIn} beside it that errs at several rates.
 */
final class MeasureEngines {

  private static final double[] RATES = {0, 0.01, 0.03, 0.1, 0.3};

  /** Of the clean pages one in so many is made worse: each way of it takes as long as all pages. */
  private static final int EVERY = 3;

  private static final String COPIES = "copy: ";

  private final int seeds;
  private final Map<String, List<Sum>> kinds = new TreeMap<>();

  private MeasureEngines(int seeds) {
    this.seeds = seeds;
  }

  /** What was counted over the pages of a kind, without a second reader or with one. */
  static final class Sum {
    int pages;
    double wrong;
    double left;
    int doubts;
    int worse;

    /**
     * Adds a page.
     *
     * @param alone corrections it needs without a second reader
     */
    void add(Page page, double alone) {
      pages++;
      wrong += page.wrong;
      left += page.left;
      doubts += page.doubts;
      worse += page.wrong > alone ? 1 : 0;
    }

    String row() {
      return String.format(
          Locale.ROOT,
          " %7.2f %7.2f %7.2f %6d",
          wrong / pages,
          left / pages,
          (double) doubts / pages,
          worse);
    }
  }

  /**
   * What a page costs a person.
   *
   * @param wrong corrections it needs
   * @param left those that nothing asks about: every doubt answered rightly, where an answer is
   *     right
   * @param doubts that are asked
   */
  record Page(double wrong, double left, int doubts) {

    static Page of(JsonNode truth, BarMap map) {
      double wrong = corrections(truth, map);
      double left = wrong;
      Draft draft = Draft.of(map);
      int doubts = 0;
      for (Finding finding : map.findings()) {
        doubts += finding.severity() == Severity.DOUBT ? 1 : 0;
        Optional<Draft> answered =
            left > 0 ? answered(truth, draft, finding, left) : Optional.empty();
        if (answered.isPresent()) {
          draft = answered.get();
          left = corrections(truth, draft.map());
        }
      }
      return new Page(wrong, left, doubts);
    }

    /** The answer that is right: fewer corrections are left than before. */
    private static Optional<Draft> answered(
        JsonNode truth, Draft draft, Finding finding, double before) {
      for (Finding.Answer answer : finding.answers()) {
        if (!answer.correction().isEmpty()) {
          Correction correction =
              BarMapJson.mapper().convertValue(answer.correction(), Correction.class);
          if (Editing.correct(draft, correction) instanceof Outcome.Done done
              && corrections(truth, done.draft().map()) < before) {
            return Optional.of(done.draft());
          }
        }
      }
      return Optional.empty();
    }

    private static double corrections(JsonNode truth, BarMap map) {
      JsonNode found = BarMapJson.mapper().valueToTree(map);
      return Figures.of(Comparison.of(truth, found).tally()).get("corrections_per_page").orElse(0);
    }
  }

  static String run() throws IOException {
    MeasureEngines all = new MeasureEngines(3);
    List<Labelled> pages = CorpusReadings.all();
    for (Labelled page : pages) {
      all.add(page.kind(), page.truth(), page.read());
    }
    all.said();
    all.copies(pages.stream().filter(p -> p.kind().equals("clean")).toList());
    return all.said();
  }

  private void copies(List<Labelled> clean) throws IOException {
    Path folder = Files.createTempDirectory("barmap-copies");
    try (Extractor extractor = Extractor.open()) {
      for (Damage damage : Damage.values()) {
        for (int i = 0; i < clean.size(); i += EVERY) {
          Optional<Path> picture = damage.copy(clean.get(i), folder, i);
          if (picture.isPresent()) {
            Optional<ReadPage> read = read(extractor, picture.get());
            Files.delete(picture.get());
            if (read.isPresent()) {
              add(COPIES + damage.says(), clean.get(i).truth(), read.get());
            }
          }
        }
        said();
      }
    }
    Files.delete(folder);
  }

  private static Optional<ReadPage> read(Extractor extractor, Path picture) {
    try (PageSource source = new PageSource(List.of(picture))) {
      return source.next() instanceof PageResult.Loaded loaded
          ? Optional.of(extractor.readPage(loaded.page(), 1, new ArrayList<>()))
          : Optional.empty();
    }
  }

  private void add(String kind, JsonNode truth, ReadPage read) throws IOException {
    BarMap map = new Reckoner().reckon(new Book("", ""), List.of(read));
    Page alone = Page.of(truth, map);
    List<Sum> sums = kinds.computeIfAbsent(kind, k -> new ArrayList<>());
    while (sums.size() <= RATES.length) {
      sums.add(new Sum());
    }
    sums.get(0).add(alone, alone.wrong);
    for (int r = 0; r < RATES.length; r++) {
      for (int seed = 0; seed < seeds; seed++) {
        BarMap with = with(map, truth, new StandIn(RATES[r], 1000L * seed + sums.get(0).pages));
        sums.get(r + 1).add(Page.of(truth, with), alone.wrong);
      }
    }
  }

  /** A page settled with what a stand-in says of it, by way of its file. */
  static BarMap with(BarMap map, JsonNode truth, StandIn engine) throws IOException {
    Path out = Files.createTempDirectory("barmap-stand-in");
    Path file = out.resolve("page.musicxml");
    try {
      engine.read(BarMapJson.mapper().treeToValue(truth, BarMap.class), file);
      Part part = EngineReading.read(out, "", EngineLimits.STANDARD);
      return SecondEvidence.ofSamePages().settle(map, part, Fixed.NOTHING);
    } catch (UnreadableMusicXmlException e) {
      throw new IOException(e);
    } finally {
      Files.deleteIfExists(file);
      Files.delete(out);
    }
  }

  private String said() throws IOException {
    StringBuilder out = new StringBuilder();
    out.append("kind                 reader       wrong    left  doubts  worse (of)\n");
    kinds.forEach(
        (kind, sums) -> {
          for (int i = 0; i < sums.size(); i++) {
            String reader =
                i == 0 ? "none" : String.format(Locale.ROOT, "errs %.0f %%", 100 * RATES[i - 1]);
            out.append(String.format(Locale.ROOT, "%-20s %-10s", i == 0 ? kind : "", reader));
            out.append(sums.get(i).row()).append(" (").append(sums.get(i).pages).append(")\n");
          }
        });
    Files.writeString(CorpusReadings.target("engines.txt"), out);
    return out.toString();
  }
}
