package org.barmap.score;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;

/**
 * The score of a reader on a folder of labelled pages.
 *
 * @param files one for each truth, by name
 */
public record Evaluation(List<FileScore> files) {

  /**
   * The score of one truth.
   *
   * @param name file name without its ending
   * @param engraver what made the page, as the truth says, else the first part of its name
   * @param kind clean, scan, photo …, as the truth says, else its folder
   * @param tally counts
   * @param errors differences
   * @param seconds the reading took, over the pages of the truth
   * @param found what was read
   */
  public record FileScore(
      String name,
      String engraver,
      String kind,
      Tally tally,
      List<ScoreError> errors,
      double seconds,
      BarMap found) {

    /** Takes a defensive copy. */
    public FileScore {
      errors = List.copyOf(errors);
    }

    /** Returns corrections a page, barline types apart. */
    public double corrections() {
      return Figures.of(tally).get("corrections_per_page").orElse(0);
    }
  }

  /** Takes a defensive copy. */
  public Evaluation {
    files = List.copyOf(files);
  }

  /**
   * Reads and scores every page that has its truth beside it.
   *
   * @param folder holds {@code NAME.json} beside the images its pages name as their source;
   *     subfolders are entered
   * @param reader what is evaluated
   * @throws IOException when the folder can't be listed or holds no truth
   */
  public static Evaluation of(Path folder, Reader reader) throws IOException {
    List<Path> truths;
    try (Stream<Path> walk = Files.walk(folder)) {
      truths = walk.filter(f -> f.toString().endsWith(".json")).sorted().toList();
    }
    return of(folder, truths, reader);
  }

  /** Reads and scores the truths named. */
  public static Evaluation of(Path folder, List<Path> truths, Reader reader) throws IOException {
    List<Labelled> labelled = new ArrayList<>();
    for (Path file : truths) {
      JsonNode truth = tree(file);
      List<Path> images = truth == null ? List.of() : images(file, truth);
      if (truth != null && !images.isEmpty()) {
        labelled.add(new Labelled(file, truth, images));
      }
    }
    // A book's truth beside the truths of its pages would count everything twice.
    labelled.sort(java.util.Comparator.comparingInt(l -> l.images.size()));
    List<FileScore> scores = new ArrayList<>();
    java.util.Set<Path> seen = new java.util.HashSet<>();
    for (Labelled l : labelled) {
      if (seen.addAll(l.images)) {
        scores.add(score(l.file, l.truth, l.images, reader));
      }
    }
    if (scores.isEmpty()) {
      throw new IOException(
          folder + " holds no truth (a barmap/1 JSON file beside the image it describes)");
    }
    return new Evaluation(scores);
  }

  private record Labelled(Path file, JsonNode truth, List<Path> images) {}

  private static @org.jspecify.annotations.Nullable JsonNode tree(Path file) throws IOException {
    try {
      JsonNode tree = BarMapJson.mapper().readTree(Files.readString(file));
      return BarMap.FORMAT.equals(tree.path("format").asString("")) ? tree : null;
    } catch (JacksonException e) {
      return null;
    }
  }

  private static List<Path> images(Path file, JsonNode truth) {
    List<Path> images = new ArrayList<>();
    for (JsonNode page : truth.path("pages")) {
      Path image = file.resolveSibling(page.path("source").asString("?"));
      if (!Files.isRegularFile(image)) {
        return List.of();
      }
      if (!images.contains(image)) {
        images.add(image);
      }
    }
    return images;
  }

  private static FileScore score(Path file, JsonNode truth, List<Path> images, Reader reader) {
    long start = System.nanoTime();
    BarMap found = reader.read(images);
    double seconds = (System.nanoTime() - start) / 1e9;
    JsonNode tree = BarMapJson.mapper().valueToTree(found);
    Comparison comparison = Comparison.of(truth, tree);
    String name = file.getFileName().toString().replaceFirst("\\.json$", "");
    JsonNode corpus = truth.path("corpus");
    // Where the truth doesn't say, the folder is the kind.
    String folder = file.toAbsolutePath().getName(file.toAbsolutePath().getNameCount() - 2) + "";
    String engraver = corpus.path("engraver").asString(name.split("[-_]", 2)[0]).split(" ", 2)[0];
    String kind = corpus.path("kind").asString(folder);
    return new FileScore(
        name, engraver, kind, comparison.tally(), comparison.errors(), seconds, found);
  }

  /** Returns the sum over all files. */
  public Tally all() {
    Tally all = new Tally();
    files.forEach(f -> all.merge(f.tally()));
    return all;
  }

  /** Returns the sums by kind, in order of name. */
  public Map<String, Tally> byKind() {
    Map<String, Tally> groups = new TreeMap<>();
    files.forEach(f -> groups.computeIfAbsent(f.kind(), k -> new Tally()).merge(f.tally()));
    return groups;
  }

  /** Returns the sums by engraver and kind, in order of name. */
  public Map<String, Tally> byCategory() {
    Map<String, Tally> groups = new TreeMap<>();
    files.forEach(
        f ->
            groups
                .computeIfAbsent(f.engraver() + "/" + f.kind(), k -> new Tally())
                .merge(f.tally()));
    return groups;
  }

  /** Returns the median of seconds a page. */
  public double secondsPerPage() {
    List<Double> seconds = new ArrayList<>();
    files.forEach(f -> seconds.add(f.seconds() / Math.max(1, f.tally().get("pages"))));
    Collections.sort(seconds);
    int n = seconds.size();
    return (seconds.get((n - 1) / 2) + seconds.get(n / 2)) / 2;
  }

  /** Returns the files that need most corrections, worst first. */
  public List<FileScore> worst(int most) {
    return files.stream()
        .filter(f -> f.corrections() > 0)
        .sorted(java.util.Comparator.comparingDouble((FileScore f) -> -f.corrections()))
        .limit(most)
        .toList();
  }
}
