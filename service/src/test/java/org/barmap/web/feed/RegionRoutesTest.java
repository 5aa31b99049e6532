package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import javax.imageio.ImageIO;
import org.barmap.exchange.region.Rules;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Bars as regions over HTTP: every address in a document is asked, and answers. */
class RegionRoutesTest extends RunningServer {

  private JsonNode followed(String address) throws Exception {
    HttpResponse<String> answer = send(owner(address));
    assertThat(answer.statusCode()).as(address).isEqualTo(200);
    return BarMapJson.mapper().readTree(answer.body());
  }

  private HttpRequest.Builder owner(String address) {
    return HttpRequest.newBuilder(URI.create(address))
        .header("Authorization", "Bearer " + server.key());
  }

  private BufferedImage picture(String address) throws Exception {
    HttpResponse<InputStream> answer =
        http.send(owner(address).build(), HttpResponse.BodyHandlers.ofInputStream());
    assertThat(answer.statusCode()).as(address).isEqualTo(200);
    assertThat(answer.headers().firstValue("Content-Type")).contains("image/jpeg");
    try (InputStream in = answer.body()) {
      return ImageIO.read(in);
    }
  }

  @Test
  void everyAddressInTheAnnotationsAnswers() throws Exception {
    String base = server.address() + "api/books/" + readBook();
    JsonNode collection = followed(base + "/annotations");
    int seen = 0;
    String next = collection.path("first").asString();
    while (!next.isEmpty()) {
      JsonNode page = followed(next);
      seen += page.path("items").size();
      JsonNode first = page.path("items").path(0);
      JsonNode told = followed(first.path("body").path(3).path("id").asString());
      assertThat(told.path("place").path("region").asString())
          .isEqualTo(first.path("target").path("selector").path(0).path("value").asString());
      assertThat(
              send(owner(first.path("target").path("source").path("id").asString())).statusCode())
          .isEqualTo(200);
      next = page.path("next").asString("");
    }
    assertThat(seen).isEqualTo(12).isEqualTo(collection.path("total").asInt());
  }

  @Test
  void everyImageOfTheManifestHasTheSizeItSays() throws Exception {
    String book = readBook();
    JsonNode manifest = followed(server.address() + "api/books/" + book + "/iiif/manifest");
    assertThat(Rules.manifest(manifest)).isEmpty();
    assertThat(manifest.path("items").size()).isEqualTo(2);
    for (JsonNode canvas : manifest.path("items")) {
      JsonNode body = canvas.path("items").path(0).path("items").path(0).path("body");
      size(picture(body.path("id").asString()), body);
      size(
          picture(canvas.path("thumbnail").path(0).path("id").asString()),
          canvas.path("thumbnail").path(0));
      JsonNode info = followed(body.path("service").path(0).path("id").asString() + "/info.json");
      assertThat(Rules.info(info)).isEmpty();
      for (JsonNode size : info.path("sizes")) {
        String said = size.path("width").asInt() + "," + size.path("height").asInt();
        size(picture(info.path("id").asString() + "/full/" + said + "/0/default.jpg"), size);
      }
      HttpResponse<String> bare = send(owner(info.path("id").asString()));
      assertThat(bare.statusCode()).isEqualTo(303);
      assertThat(send(owner(info.path("id").asString() + "/full/77,77/0/default.jpg")).statusCode())
          .isEqualTo(400);
      JsonNode bars = followed(canvas.path("annotations").path(0).path("id").asString());
      assertThat(bars.path("items").path(0).path("target").path("source").path("id").asString())
          .isEqualTo(canvas.path("id").asString());
    }
    JsonNode looks = json(get("/api/books/" + book + "/seen"));
    assertThat(looks.toString()).contains("\"what\":\"image\"");
  }

  private static void size(BufferedImage image, JsonNode said) {
    assertThat(image.getWidth()).isEqualTo(said.path("width").asInt());
    assertThat(image.getHeight()).isEqualTo(said.path("height").asInt());
  }

  @Test
  void aBarIsSeenWithWhatStandsAroundIt() throws Exception {
    String base = server.address() + "api/books/" + readBook() + "/bars/";
    int alone = picture(base + "2/image").getWidth();
    int around = picture(base + "2/image?around=1").getWidth();
    assertThat(around).isGreaterThan(2 * alone - 200).isGreaterThan(alone);
    assertThat(picture(base + "2/image?width=100").getWidth()).isEqualTo(100);
  }

  @Test
  void whatIsNotThereIsAClearError() throws Exception {
    String book = readBook();
    String bars = "/api/books/" + book + "/bars/";
    assertProblem(get(bars + "99"), ApiError.NO_BAR);
    assertThat(get(bars + "99").body()).contains("bars 1 to 12");
    assertProblem(get(bars + "7:1"), ApiError.NO_BAR);
    assertProblem(get(bars + "99/image"), ApiError.NO_BAR);
    assertThat(get(bars + "%00").statusCode()).isEqualTo(400);
    assertProblem(get(bars + "%3Cscript%3E"), ApiError.NO_BAR);
    assertProblem(get("/api/books/" + book + "/annotations/none"), ApiError.NO_PAGE);
    assertProblem(get("/api/books/" + newBook() + "/iiif/manifest"), ApiError.NO_PICTURE);
  }
}
