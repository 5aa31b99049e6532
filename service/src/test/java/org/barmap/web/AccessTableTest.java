package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Every route, asked by everybody: what {@code access.txt} says, which was written from what each
 * is there for and not from the program.
 */
class AccessTableTest extends RunningServer {

  @Override
  protected boolean isOdd() {
    return true;
  }

  /** What stands in the table, and what is answered. */
  private static final Map<String, List<Integer>> WORDS =
      Map.of("-", List.of(401), "no", List.of(403), "in", List.of());

  /** A row of the table. */
  private record Row(String method, String path, List<String> expected) {
    String route() {
      return method + " " + path;
    }

    /** Takes the book, all books or links away, so that the next row needs others. */
    boolean ends() {
      return method.equals("DELETE")
          && List.of("{b}", "share").contains(path.replaceAll(".*/", ""));
    }
  }

  private final Map<String, String> keys = new LinkedHashMap<>();
  private String book = "";

  @Override
  protected List<InetAddress> shareAt() throws IOException {
    return List.of(InetAddress.getByName("127.0.0.2"));
  }

  private static List<Row> table() throws IOException {
    try (InputStream in = AccessTableTest.class.getResourceAsStream("access.txt")) {
      String text = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
      return text.lines()
          .filter(line -> !line.isBlank() && !line.startsWith("#"))
          .map(line -> line.strip().split("\\s+"))
          .map(c -> new Row(c[0], c[1], Arrays.asList(c).subList(2, c.length)))
          .toList();
    }
  }

  @Test
  void everyRouteStandsInTheTable() throws IOException {
    List<String> rows = table().stream().map(Row::route).toList();
    assertThat(rows).doesNotHaveDuplicates();
    assertThat(server.everyRoute()).hasSizeGreaterThan(60).allMatch(rows::contains);
  }

  @Test
  void everybodyMayAskWhatTheTableSays() throws Exception {
    people();
    List<String> wrong = new ArrayList<>();
    for (Row row : table()) {
      assertThat(row.expected()).as(row.route()).hasSameSizeAs(keys.keySet());
      int column = 0;
      for (Map.Entry<String, String> somebody : keys.entrySet()) {
        String word = row.expected().get(column++);
        int status = asked(row, somebody.getValue());
        List<Integer> right = WORDS.getOrDefault(word, List.of());
        boolean in = status != 401 && status != 403 && status < 500;
        if (right.isEmpty() ? !in : !right.contains(status)) {
          wrong.add(row.route() + " as " + somebody.getKey() + ": " + word + ", came " + status);
        }
      }
      if (row.ends()) {
        people();
      }
    }
    assertThat(wrong).isEmpty();
  }

  /** In the order of the table's columns. */
  private void people() throws Exception {
    book = newBook();
    String other = newBook();
    keys.clear();
    keys.put("nobody", "");
    keys.put("phone", key(book, "phone"));
    keys.put("reader", key(book, "reader"));
    keys.put("corrector", key(book, "corrector"));
    keys.put("owner of another book", key(other, "owner"));
    keys.put("owner of the book", key(book, "owner"));
    keys.put("owner of all", server.key());
  }

  private String key(String of, String as) throws Exception {
    JsonNode open =
        json(post("/api/books/" + of + "/share", "{\"as\":\"" + as + "\"}")).path("open");
    String link = open.path(open.size() - 1).path("links").path(0).asString();
    return link.substring(link.indexOf('=') + 1);
  }

  private int asked(Row row, String key) throws Exception {
    String path = row.path().replace("{b}", book).replaceAll("\\{\\w+}", "c1");
    HttpRequest.Builder request =
        withoutKey(path).method(row.method(), HttpRequest.BodyPublishers.ofString("{}"));
    if (!key.isEmpty()) {
      request.header("Authorization", "Bearer " + key);
    }
    // a line of events never ends by itself
    HttpResponse<InputStream> answer =
        http.send(request.build(), HttpResponse.BodyHandlers.ofInputStream());
    answer.body().close();
    return answer.statusCode();
  }
}
