package org.barmap.plan.change.kind;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** DEVELOPERS.md names every file a kind of change stands in. */
class KindRecipeTest {

  private static final Path HOME = Path.of(System.getProperty("barmap.home", ".."));
  private static final List<String> SOURCES =
      List.of("extractor/src/main", "corpus/src/main", "service/src/main", "web-static/site");
  private static final Map<String, String> TEXTS = texts();
  private static final String KINDS = "service/src/main/java/org/barmap/plan/change/kind/";

  /**
   * The sorts of what directors say have their own names, some of them those of kinds; and what is
   * doubted of a sentence is told by the words of kinds.
   */
  private static final Pattern SAID =
      Pattern.compile("service/src/main/java/org/barmap/plan/words/(?:clause|doubt)/.*");

  /** Files that make changes of a kind themselves, so that a new kind needs nothing there. */
  private static final Map<String, Set<String>> MAKERS =
      Map.of(
          "service/src/main/java/org/barmap/plan/words/Orders.java",
          Set.of("Reorder"),
          "service/src/main/java/org/barmap/plan/words/Kept.java",
          Set.of("Note"),
          "service/src/main/java/org/barmap/plan/words/NumberJumps.java",
          Set.of("JumpTo"),
          KINDS + "JumpTo.java",
          Set.of("Cut", "CutNumber", "LinkChange"));

  @Test
  void theRecipeIsShort() throws IOException {
    assertThat(recipe("Insert")).hasSizeBetween(1, 4).allMatch(f -> Files.exists(HOME.resolve(f)));
  }

  /** Kinds whose word stands for nothing else in the sources. */
  @ParameterizedTest
  @CsvSource({"Insert, insert", "CutNumber, cut-number", "Remind, remind"})
  void aKindStandsInTheFilesOfTheRecipe(String kind, String word) throws IOException {
    Pattern key = Pattern.compile("[\"'`]" + word + "[\"'`]|(?m)^\\s*" + word + "\\s*:");
    Set<String> found = files(f -> !f.endsWith(".java"), key);
    found.addAll(
        files(
            f -> f.endsWith(".java") && !SAID.matcher(f).matches(),
            Pattern.compile("\"" + word + "\"")));
    found.addAll(naming(kind));
    assertThat(found).isEqualTo(recipe(kind));
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void noOtherClassKnowsAKind(String kind) {
    assertThat(naming(kind))
        .containsExactlyInAnyOrder(KINDS + kind + ".java", KINDS + "ShowChange.java");
  }

  /** Kinds that are much alike share the file of their family, which the others name. */
  static Stream<String> kinds() {
    return Kinds.all().map(KindRecipeTest::file).distinct();
  }

  private static String file(Class<?> kind) {
    Class<?> family = kind.getNestHost();
    return family == ShowChange.class ? kind.getSimpleName() : family.getSimpleName();
  }

  /** Returns the Java files that name a kind, but those that make changes of it. */
  private static Set<String> naming(String kind) {
    Pattern imported = Pattern.compile("\\bplan\\.change\\.kind\\.(?:" + kind + "\\b|\\*)");
    Set<String> found = files(f -> f.endsWith(".java"), imported);
    Pattern code = Pattern.compile("(?m)^(?!\\s*(?:\\*|//|/\\*)).*\\b" + kind + "\\b(?!\")");
    found.addAll(files(f -> f.startsWith(KINDS) && !f.endsWith("-info.java"), code));
    found.removeIf(f -> MAKERS.getOrDefault(f, Set.of()).contains(kind));
    return found;
  }

  /** Returns the files numbered in the recipe, for a kind. */
  private static Set<String> recipe(String kind) throws IOException {
    String guide = Files.readString(HOME.resolve("DEVELOPERS.md"));
    int from = guide.indexOf("**A kind of change.**");
    assertThat(from).isPositive();
    String text = guide.substring(from, guide.indexOf("\n**", from));
    Set<String> files = new TreeSet<>();
    Matcher step = Pattern.compile("(?m)^\\d\\. `([^`]+)`").matcher(text);
    while (step.find()) {
      files.add(step.group(1).replace("KIND", kind));
    }
    return files;
  }

  private static Set<String> files(Predicate<String> of, Pattern naming) {
    return TEXTS.entrySet().stream()
        .filter(f -> of.test(f.getKey()) && naming.matcher(f.getValue()).find())
        .map(Map.Entry::getKey)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** Returns the text of each source by its name; read once, as every kind is looked for in all. */
  private static Map<String, String> texts() {
    Map<String, String> texts = new TreeMap<>();
    for (String source : SOURCES) {
      try (Stream<Path> walk = Files.walk(HOME.resolve(source))) {
        for (Path file : walk.filter(Files::isRegularFile).toList()) {
          String name = HOME.relativize(file).toString().replace('\\', '/');
          if (name.matches(".*\\.(?:java|js|json|html|css|sql)")) {
            texts.put(name, Files.readString(file));
          }
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return texts;
  }
}
