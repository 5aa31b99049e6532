package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.barmap.extract.Extractor;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.fit.Traces.Copy;
import org.barmap.fit.Truth.TrueBar;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/**
 * Measures what missed barlines leave in the network's heat: {@code mvn test -pl corpus -am
 * -Dtest=TracesTest -Dbarmap.traces=true -Dsurefire.failIfNoSpecifiedTests=false} reads the corpus
 * and worse copies of it and writes {@code traces.json}.
 */
class TracesTest {

  /** Less than this cuts no cell, so the barline counts as missed. */
  private static final double MISSED = 0.3;

  private static final double SAME = 1.2;

  @Test
  void everyKindOfCopyHasLinesAndNoMoreTracesThanMissedOnes() {
    assertThat(Traces.left()).isNotEmpty().allMatch(p -> p > 0 && p < MISSED);
    assertThat(Traces.share()).isBetween(0.5, 1.0);
  }

  @Test
  @EnabledIfSystemProperty(named = "barmap.traces", matches = "true")
  void measuresAnew(@TempDir Path folder) throws IOException {
    List<Copy> copies = new ArrayList<>();
    List<Labelled> all = CorpusReadings.all();
    Found asIs = new Found();
    all.forEach(l -> asIs.add(l.read(), l));
    copies.add(asIs.copy(Traces.AS_IS));
    try (Extractor extractor = Extractor.open()) {
      for (Damage damage : Damage.values()) {
        Found found = new Found();
        for (int i = 0; i < all.size(); i += 2) {
          Labelled page = all.get(i);
          Optional<Path> picture = damage.copy(page, folder, i);
          if (picture.isPresent()) {
            read(extractor, picture.get()).ifPresent(r -> found.add(r, page));
            Files.delete(picture.get());
          }
        }
        copies.add(found.copy(damage.says()));
      }
    }
    Traces traces = new Traces(LocalDate.now(ZoneOffset.UTC).toString(), copies);
    Path out = CorpusReadings.HOME.resolve("src/test/resources/org/barmap/fit/traces.json");
    Files.writeString(out, BarMapJson.mapper().writeValueAsString(traces) + "\n");
    assertThat(copies).allMatch(c -> c.lines() > 100);
  }

  private static Optional<ReadPage> read(Extractor extractor, Path picture) {
    try (PageSource source = new PageSource(List.of(picture))) {
      return source.next() instanceof PageResult.Loaded loaded
          ? Optional.of(extractor.readPage(loaded.page(), 1, new ArrayList<>()))
          : Optional.empty();
    }
  }

  /** What was found on pages of one kind. */
  private static final class Found {
    private int lines;
    private int missed;
    private final List<Double> left = new ArrayList<>();
    private final List<Double> none = new ArrayList<>();

    void add(ReadPage read, Labelled page) {
      for (ReadSystem s : read.systems()) {
        List<Double> edges = Truth.bars(page.truth(), s).stream().map(TrueBar::to).toList();
        if (!edges.isEmpty()) {
          system(s, edges);
        }
      }
    }

    private void system(ReadSystem s, List<Double> edges) {
      List<Sign> read = s.signs().stream().filter(x -> x.kind() == SignKind.BARLINE).toList();
      for (int i = 0; i + 1 < edges.size(); i++) {
        double p = at(read, edges.get(i));
        lines++;
        boolean alone =
            at(read, edges.get(i + 1)) > 0.5 && (i == 0 || at(read, edges.get(i - 1)) > 0.5);
        if (p < MISSED && alone) {
          missed++;
          if (p > 0) {
            left.add(p);
          }
        }
      }
      read.stream()
          .filter(x -> x.probability() < MISSED && x.at() > s.begin() + 2.2)
          .filter(x -> edges.stream().allMatch(e -> Math.abs(e - x.at()) >= SAME))
          .forEach(x -> none.add(x.probability()));
    }

    private static double at(List<Sign> read, double edge) {
      return read.stream()
          .filter(x -> Math.abs(x.at() - edge) < SAME)
          .mapToDouble(Sign::probability)
          .max()
          .orElse(0);
    }

    Copy copy(String kind) {
      Collections.sort(left);
      Collections.sort(none);
      return new Copy(kind, lines, missed, rounded(left), rounded(none));
    }

    private static List<Double> rounded(List<Double> values) {
      return values.stream().map(v -> Math.round(v * 1000) / 1000.0).toList();
    }
  }
}
