package org.barmap.library.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gaul.s3proxy.junit.S3ProxyExtension;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.RegisterExtension;
import software.amazon.awssdk.core.sync.RequestBody;
import software.amazon.awssdk.services.s3.S3Client;
import software.amazon.awssdk.services.s3.model.S3Object;

/** In a store that speaks S3 over HTTP, which is looked into with a client of the test's own. */
class S3PicturesTest extends PictureStoreContract {

  private static final S3ProxyExtension PROXY =
      S3ProxyExtension.builder().withCredentials("reader", "a secret of the test").build();

  /** Begins and ends the one for all tests, which takes two seconds to end. */
  @RegisterExtension static final OnceForAll ONCE = new OnceForAll();

  private static final AtomicInteger NEXT = new AtomicInteger();

  private final String bucket = "pictures" + NEXT.incrementAndGet();
  private S3Client outside;

  @SuppressWarnings("NullAway.Init") // before each test
  S3PicturesTest() {}

  private static final class OnceForAll implements BeforeAllCallback, AfterAllCallback {

    @Override
    public void beforeAll(ExtensionContext context) throws Exception {
      PROXY.beforeEach(context);
    }

    @Override
    public void afterAll(ExtensionContext context) {
      PROXY.afterEach(context);
    }
  }

  @BeforeEach
  void bucket() {
    outside = Outside.client(PROXY);
    outside.createBucket(b -> b.bucket(bucket));
  }

  @AfterEach
  void end() {
    outside.close();
  }

  private S3Address address(String bucket) {
    return new S3Address(bucket, "below/", Optional.of(PROXY.getUri()), "us-east-1");
  }

  @Override
  PictureStore open() throws IOException {
    return S3Pictures.open(address(bucket), root, Outside.keys(PROXY));
  }

  @Override
  Set<String> seen() {
    return outside.listObjectsV2(b -> b.bucket(bucket)).contents().stream()
        .map(S3Object::key)
        .map(key -> key.replaceFirst("^below/books/", ""))
        .collect(Collectors.toSet());
  }

  @Override
  void forgetCopies() throws IOException {
    try (Stream<Path> all = Files.walk(root.resolve("books"))) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        Files.delete(file);
      }
    }
  }

  @Test
  void aDamagedObjectIsNotShown() throws IOException {
    try (PictureStore store = open()) {
      store.keep(BOOK, file(BOOK, ONE, "one"));
      forgetCopies();
      String key = "below/books/" + BOOK + "/" + ONE;
      var before = outside.headObject(b -> b.bucket(bucket).key(key)).metadata();
      assertThat(before).containsKey("sha256");
      outside.putObject(
          b -> b.bucket(bucket).key(key).metadata(before), RequestBody.fromString("two"));
      assertThatThrownBy(() -> store.bring(BOOK, ONE)).hasMessageContaining("damaged");
      assertThat(root.resolve("books").resolve(BOOK)).isEmptyDirectory();
    }
  }

  @Test
  void aStoreThatIsAwayIsSaidAndNothingIsHalfKept() throws IOException {
    try (PictureStore store = open()) {
      outside.deleteBucket(b -> b.bucket(bucket));
      Path file = file(BOOK, ONE, "one");
      assertThat(store.isReady()).isFalse();
      assertThatThrownBy(() -> store.keep(BOOK, file))
          .isInstanceOf(IOException.class)
          .hasMessageContaining("can't be used")
          .hasMessageNotContaining("secret");
      outside.createBucket(b -> b.bucket(bucket));
      store.keep(BOOK, file);
      assertThat(seen()).hasSize(1);
    }
    assertThatThrownBy(() -> S3Pictures.open(address("nowhere"), root, Outside.keys(PROXY)))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("s3://nowhere/");
  }

  @Test
  void whatWasInTheFolderMovesInAndOldCopiesGo() throws IOException {
    try (PictureStore store = open()) {
      file(BOOK, ONE, "named");
      String gone = ONE.replace('0', '1');
      Path old = file(BOOK, gone, "named by nothing");
      Files.setLastModifiedTime(old, FileTime.from(Instant.now().minus(Duration.ofDays(1))));
      Path fresh = file(BOOK, ONE.replace('0', '2'), "an upload under way");
      store.tidy(Set.of(BOOK + "/" + ONE));
      assertThat(seen()).containsExactly(BOOK + "/" + ONE);
      assertThat(old).doesNotExist();
      assertThat(fresh).exists();
    }
  }

  @Test
  void copiesOfWhatAnotherMachineRemovedGoWhileOthersAreAtWork() throws IOException {
    try (PictureStore store = open()) {
      Path old = file(BOOK, ONE, "removed on another machine");
      Files.setLastModifiedTime(old, FileTime.from(Instant.now().minus(Duration.ofDays(1))));
      Path used = file(BOOK, ONE.replace('0', '2'), "named");
      Files.setLastModifiedTime(used, FileTime.from(Instant.now().minus(Duration.ofDays(1))));
      store.dropCopies(Set.of(BOOK + "/" + ONE.replace('0', '2')));
      assertThat(old).doesNotExist();
      assertThat(used).exists();
      assertThat(seen()).as("nothing is put there").isEmpty();
    }
  }

  @Test
  void anAddressIsUnderstoodOrRefused() {
    assertThat(S3Address.of("s3://scores/a/b?endpoint=http://127.0.0.1:9000&region=eu-west-1"))
        .isEqualTo(
            new S3Address(
                "scores", "a/b/", Optional.of(URI.create("http://127.0.0.1:9000")), "eu-west-1"));
    assertThat(S3Address.of("s3://scores"))
        .isEqualTo(new S3Address("scores", "", Optional.empty(), "us-east-1"));
    assertThatThrownBy(() -> S3Address.of("s3://scores?key=x")).hasMessageContaining("only");
    assertThatThrownBy(() -> S3Address.of("https://scores")).hasMessageContaining("s3://BUCKET");
  }
}
