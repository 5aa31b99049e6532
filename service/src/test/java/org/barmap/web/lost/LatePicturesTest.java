package org.barmap.web.lost;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.library.Library;
import org.barmap.library.Stores;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.picture.S3Address;
import org.barmap.library.picture.S3Pictures;
import org.barmap.library.picture.StoreAwayException;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresBackup;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.gaul.s3proxy.junit.S3ProxyExtension;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import software.amazon.awssdk.http.urlconnection.UrlConnectionHttpClient;
import software.amazon.awssdk.regions.Region;
import software.amazon.awssdk.services.s3.S3Client;
import tools.jackson.databind.JsonNode;

/**
 * Books in PostgreSQL, pictures in a store that answers late, breaks off or is away: that is said,
 * nothing is half kept, and everything goes on by itself when it answers again.
 */
class LatePicturesTest extends RunningServer {

  @RegisterExtension
  final S3ProxyExtension proxy =
      S3ProxyExtension.builder().withCredentials("late", "a secret of the test").build();

  private LooseLine line;

  @SuppressWarnings("NullAway.Init") // when the library is opened
  LatePicturesTest() {}

  private S3Address address() {
    return S3Address.of("s3://late?patience=1&endpoint=http://127.0.0.1:%d".formatted(line.port()));
  }

  private DatabaseAddress database() {
    return DatabaseAddress.of(Stores.postgres(folder), Optional.empty());
  }

  @Override
  protected Library opened() throws IOException {
    System.setProperty("aws.accessKeyId", proxy.getAccessKey());
    System.setProperty("aws.secretAccessKey", proxy.getSecretKey());
    try (S3Client outside =
        S3Client.builder()
            .region(Region.US_EAST_1)
            .endpointOverride(proxy.getUri())
            .forcePathStyle(true)
            .httpClientBuilder(UrlConnectionHttpClient.builder())
            .build()) {
      outside.createBucket(b -> b.bucket("late"));
    }
    line = new LooseLine(proxy.getUri().getPort());
    return PostgresLibrary.open(
        database(), folder, S3Pictures.open(address(), folder), Clock.systemUTC());
  }

  @AfterEach
  void mend() {
    line.mend();
    System.clearProperty("aws.accessKeyId");
    System.clearProperty("aws.secretAccessKey");
  }

  /** Takes away what this machine has that is only a copy. */
  private void forgetCopies() throws IOException {
    try (Stream<Path> all = Files.walk(folder.resolve("books"))) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        Files.delete(file);
      }
    }
  }

  private List<Path> copies() throws IOException {
    try (Stream<Path> all = Files.walk(folder.resolve("books"))) {
      return all.filter(Files::isRegularFile).toList();
    }
  }

  private void assertAway(HttpResponse<String> answer) {
    assertProblem(answer, ApiError.AWAY);
    assertThat(answer.headers().firstValue("Retry-After")).isPresent();
    assertThat(answer.body()).doesNotContain("late").doesNotContain("127.0.0.1");
  }

  private JsonNode read(String book) throws Exception {
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> json(get("/api/books/" + book)).path("job").isMissingNode());
    return json(get("/api/books/" + book));
  }

  @Test
  void anUploadIsKeptWholeOrRefused() throws Exception {
    String book = library.books().add("Saltmarsh", "Bass").id();
    line.stick();
    assertAway(upload(book, "one.png", png()));
    assertThat(json(get("/api/books/" + book)).path("pages")).isEmpty();
    line.mend();
    line.cut();
    assertAway(upload(book, "two.png", png()));
    line.mend();
    assertThat(upload(book, "three.png", png()).statusCode()).isEqualTo(202);
    JsonNode pages = read(book).path("pages");
    assertThat(pages).hasSize(1);
    assertThat(pages.get(0).path("source").asString()).isEqualTo("three.png");
    assertThat(pages.get(0).path("state").asString()).isEqualTo("read");
    assertThat(library.keeping().kept().missing()).isEmpty();
  }

  @Test
  void aPictureIsShownWholeOrNotAtAllAndABackupIsWrittenWholeOrNot() throws Exception {
    String book = library.books().add("Saltmarsh", "Bass").id();
    upload(book, "one.png", png());
    String page = read(book).path("pages").get(0).path("id").asString();
    String image = "/api/books/" + book + "/pages/" + page + "/image?width=40";
    Path all = folder.resolve("all.zip");
    for (long bytes : new long[] {0, 1200}) {
      forgetCopies();
      line.stickAfter(bytes);
      assertAway(get(image));
      assertThat(copies()).as("half of it after " + bytes + " bytes").isEmpty();
      line.mend();
    }
    try (PictureStore kept = S3Pictures.open(address(), folder)) {
      line.stick();
      assertThatThrownBy(() -> PostgresBackup.save(database(), kept, all, true))
          .isInstanceOf(StoreAwayException.class)
          .hasMessageContaining("s3://late");
      assertThat(all).doesNotExist();
      line.mend();
      assertThat(PostgresBackup.save(database(), kept, all, true).flaws()).isEmpty();
    }
    try (Stream<Path> beside = Files.list(folder)) {
      assertThat(beside.map(f -> f.getFileName().toString()))
          .noneMatch(name -> name.startsWith(".barmap"));
    }
    assertThat(get(image).statusCode()).isEqualTo(200);
  }
}
