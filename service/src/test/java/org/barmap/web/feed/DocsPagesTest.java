package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
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

  private static final Path WEB = Path.of(System.getProperty("barmap.home"), "web-static");
  private static final String INDEX = "/docs/index.html";
  private static final Pattern LINK =
      Pattern.compile("(?:href|src|data-file)=\"(/[^\"#]+)(?:#[^\"]*)?\"");
  private static final Pattern PORT = Pattern.compile("127\\.0\\.0\\.1:(\\d+)");

  /** The addresses of all pages whose text there is. */
  private static List<String> pages() throws IOException {
    try (Stream<Path> files = Files.list(WEB.resolve("docs"))) {
      return files.map(file -> "/docs/" + file.getFileName()).toList();
    }
  }

  private String served(String address) throws Exception {
    HttpResponse<String> answer = send(withoutKey(address));
    assertThat(answer.statusCode()).as(address).isEqualTo(200);
    return answer.body();
  }

  private static Set<String> links(String page) {
    return LINK.matcher(page)
        .results()
        .map(found -> found.group(1))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void everyPageIsReachedFromTheFirstAndLeadsBackToIt() throws Exception {
    Set<String> first = links(served(INDEX));
    assertThat(pages()).hasSizeGreaterThan(7);
    for (String address : pages()) {
      if (!address.equals(INDEX)) {
        assertThat(first).contains(address);
        assertThat(links(served(address))).as(address).contains(INDEX);
      }
    }
  }

  @Test
  void everyPageIsWhole() throws Exception {
    for (String address : pages()) {
      String page = served(address);
      String heading = page.substring(page.indexOf("<h1>") + 4, page.indexOf("</h1>"));
      assertThat(page).as(address).contains("<title>" + heading + " · barmap</title>");
      assertThat(page).as(address).doesNotContain("{{").endsWith("</html>\n");
    }
    assertThat(served("/docs")).isEqualTo(served(INDEX));
  }

  @Test
  void everyLinkIsAnsweredWithoutAKey() throws Exception {
    Set<String> all = new TreeSet<>();
    for (String address : pages()) {
      all.addAll(links(served(address)));
    }
    assertThat(all).contains("/openapi.yaml", "/schemas/barmap-1.json", "/js/docs/api.js");
    for (String address : all) {
      served(address);
    }
  }

  @Test
  void whatIsShownToBeTypedGoesToThePortOfTheService() throws IOException {
    List<Path> shown = new ArrayList<>();
    for (Path folder : List.of(WEB.resolve("docs"), WEB.resolve("site/docs"))) {
      try (Stream<Path> files = Files.walk(folder)) {
        files.filter(Files::isRegularFile).forEach(shown::add);
      }
    }
    assertThat(shown).hasSizeGreaterThan(10);
    for (Path file : shown) {
      assertThat(PORT.matcher(Files.readString(file)).results().map((MatchResult m) -> m.group(1)))
          .as(file.toString())
          .allMatch("7171"::equals);
    }
  }
}
