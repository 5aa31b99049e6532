package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.logging.Logger;
import org.barmap.fit.TrueReadings.Errors;
import org.barmap.fit.TrueReadings.TrueBar;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Meter;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.SecondReading.Part;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.Reckoner;
import org.barmap.reckon.SecondEvidence;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * How far to trust a second reading: the truths of the corpus as one, with bars left out, doubled
 * and wrongly numbered, beside the same pages with errors drawn into them.
 */
class SecondTrustTest {

  /** Aligning takes time; one page in so many is enough to tell. */
  private static final int EVERY = 6;

  private static final Logger LOG = Logger.getLogger(SecondTrustTest.class.getName());

  @Test
  void aSecondReadingHelpsAndMoreSoTheBetterItIs() throws IOException {
    double none = right(-1, 0);
    StringBuilder table = new StringBuilder("without: %.4f%n".formatted(none));
    double[] errors = {0, 0.02, 0.1};
    double perfect = 0;
    double worst = 1;
    for (double trust : new double[] {0.5, 0.9}) {
      table.append("trust %.2f:".formatted(trust));
      for (double wrong : errors) {
        double right = right(trust, wrong);
        table.append(" %.0f %% wrong %.4f".formatted(100 * wrong, right));
        if (trust == SecondEvidence.TRUST) {
          perfect = wrong == 0 ? right : perfect;
          worst = Math.min(worst, right);
        }
      }
      table.append("\n");
    }
    LOG.info(table.toString());
    assertThat(perfect).isGreaterThan(none);
    // one bar in a thousand either way is chance
    assertThat(worst).isGreaterThan(none - 0.002);
  }

  /** Share of entries with the right number; no second reading where trust is below 0. */
  private static double right(double trust, double wrong) throws IOException {
    int right = 0;
    int bars = 0;
    int seed = 0;
    List<Path> files = CorpusReadings.plainTruths();
    for (int i = 0; i < files.size(); i += EVERY) {
      Path file = files.get(i);
      JsonNode truth = BarMapJson.mapper().readTree(Files.readString(file));
      TrueReadings page =
          new TrueReadings(List.of(truth), new Errors(0.01, 0.005, 0.1, 0.1, false), ++seed);
      BarMap map = new Reckoner().reckon(new Book("", ""), page.pages);
      if (trust >= 0) {
        Part part = new Part("P1", "", measures(truth, wrong, new Random(seed)));
        map = new SecondEvidence(trust).settle(map, part, Fixed.NOTHING);
      }
      List<String> names = new ArrayList<>();
      page.pages.get(0).systems().forEach(s -> names.add(Integer.toString(s.system().index())));
      for (TrueBar t : page.bars) {
        bars++;
        right += isRight(map, names.get(t.system()), t) ? 1 : 0;
      }
    }
    return right / (double) bars;
  }

  private static boolean isRight(BarMap map, String system, TrueBar t) {
    for (Bar b : map.bars()) {
      double from = b.outline().topLeft().x() / 10;
      double to = b.outline().topRight().x() / 10;
      double common = Math.min(to, t.to()) - Math.max(from, t.from());
      double union = Math.max(to, t.to()) - Math.min(from, t.from());
      if (system.equals(Integer.toString(b.system())) && common > 0.5 * union) {
        return b.number() == t.number();
      }
    }
    return false;
  }

  /** The truth's bars one by one; a share of them left out or doubled, so that numbers shift. */
  private static List<Measure> measures(JsonNode truth, double wrong, Random random) {
    List<Measure> out = new ArrayList<>();
    int shift = 0;
    for (JsonNode bar : truth.path("bars")) {
      int count = bar.path("count").asInt(1);
      int number = bar.path("number").asInt();
      shift = number <= 1 ? 0 : shift;
      int off = random.nextDouble() < wrong ? (random.nextBoolean() ? 1 : -1) : 0;
      int read = Math.max(0, count + off);
      for (int i = 0; i < read; i++) {
        out.add(measure(bar, number + shift + i, i, read));
      }
      shift += read - count;
    }
    return out;
  }

  private static Measure measure(JsonNode bar, int number, int i, int count) {
    String mark = bar.at("/rehearsal/text").asString("");
    JsonNode meter = bar.path("meter");
    return new Measure(
        Integer.toString(number),
        false,
        meter.has("beats")
            ? Optional.of(
                new Meter(
                    meter.path("beats").asInt(),
                    meter.path("unit").asInt(),
                    i == 0 && meter.path("printed").asBoolean()))
            : Optional.empty(),
        Optional.empty(),
        !bar.path("content").asString("music").equals("music"),
        i == 0 && count > 1 ? count : 0,
        Barline.NONE,
        Barline.SINGLE,
        Optional.empty(),
        i == 0 && !mark.isEmpty() ? Optional.of(mark) : Optional.empty(),
        List.of(),
        List.of());
  }
}
