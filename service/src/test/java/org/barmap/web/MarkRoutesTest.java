package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.net.http.HttpResponse;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A mark that was written stays on the list to erase until it is ticked as erased. */
class MarkRoutesTest extends RunningServer {

  private JsonNode written(String book) throws Exception {
    return json(get(book + "/marks")).path("written");
  }

  private static String tick(JsonNode mark, boolean written) {
    return "{\"mark\":" + mark + ",\"written\":" + written + "}";
  }

  private String erasePdf(String book) throws Exception {
    HttpResponse<InputStream> answer =
        http.send(
            to(book + "/sheets/erase.pdf").build(), HttpResponse.BodyHandlers.ofInputStream());
    assertThat(answer.statusCode()).isEqualTo(200);
    try (InputStream pdf = new ByteArrayInputStream(answer.body().readAllBytes());
        var document = Loader.loadPDF(pdf.readAllBytes())) {
      return new PDFTextStripper().getText(document);
    }
  }

  @Test
  void aWrittenMarkStaysWhenItsChangeIsSwitchedOff() throws Exception {
    String book = "/api/books/" + readBook();
    String bar = json(get(book + "/map")).path("bars").get(1).path("id").asString();
    String cut = "{\"kind\":\"cut\",\"number\":\"1\",\"first\":\"2\",\"last\":\"3\"}";
    assertThat(post(book + "/changes", cut, 0).statusCode()).isEqualTo(201);
    JsonNode mark =
        BarMapJson.mapper()
            .createObjectNode()
            .put("page", 1)
            .put("system", 1)
            .put("bar", bar)
            .put("mark", "cut")
            .put("sign", "cut to 4")
            .put("number", "")
            .put("where", "2");
    assertThat(written(book)).as("never written").isEmpty();
    assertThat(erasePdf(book)).contains("there is none to erase");
    assertThat(post(book + "/marks", tick(mark, true)).statusCode()).isEqualTo(200);
    assertThat(post(book + "/marks", tick(mark, true)).statusCode()).as("again").isEqualTo(200);
    JsonNode gone = json(post(book + "/changes/undo", "{}", 1));
    assertThat(gone.path("plan").path("pencil").toString()).doesNotContain("\"cut\"");
    assertThat(written(book)).hasSize(1);
    assertThat(written(book).get(0).path("sign")).isEqualTo(mark.path("sign"));
    assertThat(erasePdf(book)).contains("1 mark").contains("cut to 4");
    assertThat(post(book + "/marks", tick(mark, false)).statusCode()).isEqualTo(200);
    assertThat(written(book)).isEmpty();
    assertProblem(post(book + "/marks", "{\"written\":true}"), ApiError.BAD_REQUEST);
    assertProblem(
        post(book + "/marks", "{\"written\":true,\"mark\":{\"page\":1}}"), ApiError.BAD_REQUEST);
  }
}
