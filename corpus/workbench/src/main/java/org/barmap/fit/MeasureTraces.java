package org.barmap.fit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
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

/**
 * Measures what missed barlines leave in the network's heat: {@code barmap fit traces} reads the
 * corpus and worse copies of it and writes {@code traces.json}.
 */
final class MeasureTraces {

  /** Fewer true lines than this tell nothing. */
  private static final int FEWEST = 100;

  /** Less than this cuts no cell, so the barline counts as missed. */
  static final double MISSED = 0.3;

  private static final double SAME = 1.2;

  private MeasureTraces() {}

  /**
   * Measures anew and keeps it.
   *
   * @return how many lines of each kind of copy were looked at and missed
   * @throws CommandException when a kind of copy had too few lines; nothing is kept then
   */
  static String run() throws IOException {
    Path folder = Files.createTempDirectory("barmap-copies");
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
    Files.delete(folder);
    if (copies.stream().anyMatch(c -> c.lines() <= FEWEST)) {
      throw new CommandException(
          ExitCode.NOTHING_FOUND, "a kind of copy has too few lines; nothing was kept");
    }
    Traces traces = new Traces(LocalDate.now(ZoneOffset.UTC).toString(), copies);
    Path out = CorpusReadings.KEPT.resolve("traces.json");
    Files.writeString(out, BarMapJson.mapper().writeValueAsString(traces) + "\n");
    return copies.stream()
        .map(c -> "%s: %d of %d lines missed%n".formatted(c.kind(), c.missed(), c.lines()))
        .collect(Collectors.joining());
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
