package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.web.RunningServer;
import org.junit.jupiter.api.Test;

/** The pages of documentation lead to each other, and none of their links leads nowhere. */
class DocsPagesTest extends RunningServer {

  private static final Path DOCS =
      Path.of(System.getProperty("barmap.home")).resolve("web-static/site/docs");
  private static final String INDEX = "/docs/index.html";
  private static final Pattern LINK =
      Pattern.compile("(?:href|src|data-file)=\"(/[^\"#]+)(?:#[^\"]*)?\"");
  private static final Pattern PORT = Pattern.compile("127\\.0\\.0\\.1:(\\d+)");

  private static List<Path> pages() throws IOException {
    try (Stream<Path> files = Files.list(DOCS)) {
      return files.filter(file -> file.toString().endsWith(".html")).toList();
    }
  }

  private static Set<String> links(String page) {
    return LINK.matcher(page)
        .results()
        .map(found -> found.group(1))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void everyPageIsReachedFromTheFirstAndLeadsBackToIt() throws IOException {
    Set<String> first = links(Files.readString(DOCS.resolve("index.html")));
    assertThat(pages()).hasSizeGreaterThan(7);
    for (Path page : pages()) {
      String address = "/docs/" + page.getFileName();
      if (!address.equals(INDEX)) {
        assertThat(first).contains(address);
        assertThat(links(Files.readString(page))).as(address).contains(INDEX);
      }
    }
  }

  @Test
  void everyLinkIsAnsweredWithoutAKey() throws Exception {
    Set<String> all = new TreeSet<>();
    for (Path page : pages()) {
      all.addAll(links(Files.readString(page)));
    }
    assertThat(all).contains("/openapi.yaml", "/schemas/barmap-1.json", "/js/docs/api.js");
    for (String address : all) {
      assertThat(send(withoutKey(address)).statusCode()).as(address).isEqualTo(200);
    }
  }

  @Test
  void whatIsShownToBeTypedGoesToThePortOfTheService() throws IOException {
    try (Stream<Path> files = Files.walk(DOCS)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        assertThat(
                PORT.matcher(Files.readString(file)).results().map((MatchResult m) -> m.group(1)))
            .as(file.toString())
            .allMatch("7171"::equals);
      }
    }
  }
}
