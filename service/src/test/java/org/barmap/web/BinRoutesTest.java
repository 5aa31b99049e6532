package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.Duration;
import java.time.Instant;
import java.util.Random;
import javax.imageio.ImageIO;
import org.awaitility.Awaitility;
import org.barmap.library.Disk;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Removing over real HTTP; what is left is looked for on the disk. */
class BinRoutesTest extends RunningServer {

  private static final String MARK = "kelpmarker";

  /** A picture that is no small one in a form, so that the server keeps the upload in a file. */
  private static byte[] marked() throws Exception {
    BufferedImage image = new BufferedImage(1000, 1400, BufferedImage.TYPE_BYTE_GRAY);
    Random random = new Random(7);
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        image.setRGB(x, y, random.nextInt(0x1000000));
      }
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, "png", out);
    out.write(MARK.getBytes(StandardCharsets.ISO_8859_1));
    return out.toByteArray();
  }

  private String markedBook() throws Exception {
    String book = newBook();
    assertThat(upload(book, "one.png", marked(), "two.png", png()).statusCode()).isEqualTo(202);
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () -> {
              JsonNode shown = json(get("/api/books/" + book));
              return shown.path("bars").asInt() == 12 && shown.path("job").isMissingNode();
            });
    return book;
  }

  private String showFirstPage(String book) throws Exception {
    String page = json(get("/api/books/" + book)).path("pages").get(0).path("id").asString();
    String image = "/api/books/" + book + "/pages/" + page + "/image";
    assertThat(get(image + "?width=300").statusCode()).isEqualTo(200);
    assertThat(get(image + "?width=800").statusCode()).isEqualTo(200);
    return page;
  }

  @Test
  void aPageTakenOutLeavesNothingOnTheDisk() throws Exception {
    String book = markedBook();
    String page = showFirstPage(book);
    assertThat(Disk.holding(folder, MARK)).as("the picture, once").hasSize(1);
    assertThat(Disk.holding(folder, page + "-"))
        .as("those asked for, and one of each width that is made when the page is read")
        .hasSize(3);
    String revision = get("/api/books/" + book).headers().firstValue("ETag").orElseThrow();
    HttpResponse<String> removed =
        send(to("/api/books/" + book + "/pages/" + page).header("If-Match", revision).DELETE());
    assertThat(removed.statusCode()).isEqualTo(204);
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    // the owner's list of who was given which picture outlasts the page, not the book
    assertThat(Disk.holding(folder, page)).isSubsetOf("looks/" + book + ".jsonl");
  }

  @Test
  void aBookInTheBinIsShownBroughtBackAndRemovedForGood() throws Exception {
    String book = markedBook();
    String page = showFirstPage(book);
    String bin = "/api/bin/" + book;
    assertProblem(send(to(bin).DELETE()), ApiError.NO_BOOK);
    send(to("/api/books/" + book).DELETE());
    assertThat(json(get("/api/bin")).path("days").isMissingNode()).isTrue();
    assertThat(put("/api/bin", "{\"days\":5}").statusCode()).isEqualTo(422);
    assertThat(put("/api/bin", "{\"days\":30}").statusCode()).isEqualTo(200);
    HttpResponse<String> shown = get("/api/bin");
    assertThat(json(shown).path("days").asInt()).isEqualTo(30);
    JsonNode card = json(shown).path("books").get(0);
    assertThat(card.path("id").asString()).isEqualTo(book);
    assertThat(card.path("pages").asInt()).isEqualTo(2);
    assertThat(
            Duration.between(
                Instant.parse(card.path("discardedAt").asString()),
                Instant.parse(card.path("goneAt").asString())))
        .isEqualTo(Duration.ofDays(30));
    assertThat(post("/api/books/" + book + "/restore", "").statusCode()).isEqualTo(200);
    assertThat(json(get("/api/bin")).path("books")).isEmpty();
    send(to("/api/books/" + book).DELETE());
    assertThat(send(to(bin).DELETE()).statusCode()).isEqualTo(204);
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(Disk.holding(folder, book)).isEmpty();
    assertThat(Disk.holding(folder, page)).isEmpty();
    assertProblem(send(to(bin).DELETE()), ApiError.NO_BOOK);
    assertThat(get("/api/books/" + book).statusCode()).isEqualTo(404);
  }

  @Test
  void theBinIsEmptiedAtOnce() throws Exception {
    String one = markedBook();
    String page = showFirstPage(one);
    String two = newBook();
    String stays = newBook();
    send(to("/api/books/" + one).DELETE());
    send(to("/api/books/" + two).DELETE());
    assertThat(json(get("/api/kept")).path("binned").asInt()).isEqualTo(2);
    HttpResponse<String> emptied = send(to("/api/bin").DELETE());
    assertThat(emptied.statusCode()).isEqualTo(200);
    assertThat(json(emptied).path("removed").asInt()).isEqualTo(2);
    assertThat(json(get("/api/bin")).path("books")).isEmpty();
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(Disk.holding(folder, page)).isEmpty();
    assertThat(get("/api/books/" + stays).statusCode()).isEqualTo(200);
  }

  @Test
  void whatIsKeptIsToldAndWhatWasSetAsideGoesWhenAPersonSaysSo() throws Exception {
    String book = markedBook();
    showFirstPage(book);
    stop();
    Files.writeString(folder.resolve("books/" + book + "/u" + "0".repeat(32) + ".png"), "orphan");
    start();
    JsonNode kept = json(get("/api/kept"));
    assertThat(kept.path("folder").asString()).isEqualTo(folder.toString());
    assertThat(kept.path("closed").asBoolean()).isTrue();
    assertThat(kept.path("books").asInt()).isEqualTo(1);
    assertThat(kept.path("pictures").path("files").asInt()).isEqualTo(2);
    assertThat(kept.path("pictures").path("bytes").asLong()).isGreaterThan(1000);
    // of each page the one that is made when it is read, of the first those asked for
    assertThat(kept.path("smaller").path("files").asInt()).isEqualTo(4);
    assertThat(kept.path("setAside").path("files").asInt()).isEqualTo(1);
    assertThat(kept.path("missing")).isEmpty();
    assertThat(json(get("/api/about")).path("notices").get(0).asString())
        .contains("1 file")
        .contains("set aside in set-aside")
        .contains("Nothing was deleted");
    assertThat(Disk.holding(folder, "orphan")).hasSize(1);
    assertThat(send(to("/api/kept/set-aside").DELETE()).statusCode()).isEqualTo(204);
    assertThat(Disk.holding(folder, "orphan")).isEmpty();
    assertThat(json(get("/api/about")).path("notices")).isEmpty();
    assertThat(json(get("/api/kept")).path("setAside").path("files").asInt()).isZero();
  }

  @Test
  void aBookThatGoesBackKeepsItsMapWithoutPictures() throws Exception {
    String book = markedBook();
    String page = showFirstPage(book);
    String path = "/api/books/" + book;
    String before = get(path + "/map").body();
    assertThat(send(to(path + "/pictures").DELETE()).statusCode()).isEqualTo(428);
    String revision = get(path).headers().firstValue("ETag").orElseThrow();
    HttpResponse<String> gone = send(to(path + "/pictures").header("If-Match", revision).DELETE());
    assertThat(gone.statusCode()).isEqualTo(200);
    assertThat(json(gone).path("removed").asInt()).isEqualTo(2);
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(Disk.holding(folder, page + "-")).isEmpty();
    assertThat(json(get("/api/kept")).path("pictures").path("files").asInt()).isZero();
    assertThat(json(get(path + "/map")).path("bars"))
        .isEqualTo(BarMapJson.mapper().readTree(before).path("bars"));
    assertProblem(get(path + "/pages/" + page + "/image"), ApiError.NO_PICTURE);
    JsonNode shown = json(get(path)).path("pages").get(0);
    assertThat(shown.path("finding").asString()).contains("removed");
    assertThat(json(get("/api/kept")).path("missing")).isEmpty();
    stop();
    start();
    assertThat(json(get(path)).path("bars").asInt()).isEqualTo(12);
    assertThat(json(get("/api/about")).path("notices")).isEmpty();
  }
}
