package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.web.contract.ApiDescription;
import org.junit.jupiter.api.Test;

/**
 * The table of routes for developers and the description of the service name the routes there are,
 * all of them and no others.
 */
class RouteTableTest extends RunningServer {

  /** For instance {@code GET, POST changes} or {@code GET pages/{p}/image?width=}. */
  private static final Pattern ROUTE = Pattern.compile("`([A-Z]+(?:, [A-Z]+)*) ([^`?]+)[^`]*`");

  /** What browsers load to show the pages. */
  private static final Pattern PAGES =
      Pattern.compile("GET (/|/docs|.*\\.html|/sw\\.js|/site\\.json)");

  private static final String BOOK = "/api/books/{b}";

  @Test
  void theTableAndTheRoutesAreTheSame() throws IOException {
    Set<String> there = new TreeSet<>(server.routes());
    assertThat(there).contains("GET " + BOOK + "/map");
    assertThat(table()).containsExactlyInAnyOrderElementsOf(there);
  }

  @Test
  void theDescriptionAndTheRoutesAreTheSame() {
    Set<String> there = new TreeSet<>(server.everyRoute());
    there.removeIf(route -> PAGES.matcher(route).matches());
    Set<String> described =
        ApiDescription.INSTANCE.operations().stream()
            .map(ApiDescription.Operation::route)
            .collect(Collectors.toCollection(TreeSet::new));
    assertThat(described).hasSizeGreaterThan(80).containsExactlyElementsOf(there);
  }

  private static List<String> table() throws IOException {
    Path file = Path.of(System.getProperty("barmap.home"), "DEVELOPERS.md");
    return Files.readAllLines(file).stream()
        .dropWhile(line -> !line.startsWith("| route | what |"))
        .takeWhile(line -> line.startsWith("|"))
        .map(line -> line.split("\\|")[1])
        .flatMap(cell -> ROUTE.matcher(cell).results())
        .flatMap(
            route -> Arrays.stream(route.group(1).split(", ")).map(m -> m + " " + address(route)))
        .toList();
  }

  private static String address(MatchResult route) {
    String path = route.group(2);
    if (path.equals(".")) {
      return BOOK;
    }
    return path.startsWith("/") ? path : BOOK + "/" + path;
  }
}
