package org.barmap.library.picture;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.barmap.library.WholeFile;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.keep.RefusedFolderException;
import software.amazon.awssdk.auth.credentials.AwsCredentialsProvider;
import software.amazon.awssdk.auth.credentials.DefaultCredentialsProvider;
import software.amazon.awssdk.core.ResponseInputStream;
import software.amazon.awssdk.core.checksums.RequestChecksumCalculation;
import software.amazon.awssdk.core.checksums.ResponseChecksumValidation;
import software.amazon.awssdk.core.exception.SdkException;
import software.amazon.awssdk.core.sync.RequestBody;
import software.amazon.awssdk.http.urlconnection.UrlConnectionHttpClient;
import software.amazon.awssdk.regions.Region;
import software.amazon.awssdk.services.s3.S3Client;
import software.amazon.awssdk.services.s3.S3ClientBuilder;
import software.amazon.awssdk.services.s3.model.BucketVersioningStatus;
import software.amazon.awssdk.services.s3.model.GetObjectResponse;
import software.amazon.awssdk.services.s3.model.NoSuchKeyException;
import software.amazon.awssdk.services.s3.model.S3Exception;
import software.amazon.awssdk.services.s3.model.S3Object;

/**
 * Keeps them in a store that speaks S3, as {@code BELOW books/BOOK/FILE}. An object is there whole
 * or not at all; its SHA-256 is kept with it and compared when it is brought back. The folders of
 * books hold copies.
 */
public final class S3Pictures implements PictureStore {

  /** A copy that nothing names yet may belong to an upload under way. */
  private static final Duration UNDER_WAY = Duration.ofHours(1);

  private static final String SHA256 = "sha256";
  private static final int NOT_FOUND = 404;

  private final S3Client client;
  private final S3Address address;
  private final Path root;

  private S3Pictures(S3Client client, S3Address address, Path root) {
    this.client = client;
    this.address = address;
    this.root = root;
  }

  /**
   * Opens a store, with the keys of the surroundings.
   *
   * @param root the data folder
   * @throws RefusedFolderException when the store keeps what is removed
   * @throws IOException when it can't be used
   */
  public static S3Pictures open(S3Address address, Path root) throws IOException {
    return open(address, root, DefaultCredentialsProvider.create());
  }

  static S3Pictures open(S3Address address, Path root, AwsCredentialsProvider keys)
      throws IOException {
    S3ClientBuilder builder =
        S3Client.builder()
            .region(Region.of(address.region()))
            .credentialsProvider(keys)
            .httpClientBuilder(
                UrlConnectionHttpClient.builder()
                    .socketTimeout(address.patience())
                    .connectionTimeout(address.patience()))
            // with the tries that it makes by itself: nobody waits for minutes
            .overrideConfiguration(c -> c.apiCallTimeout(address.patience().multipliedBy(2)))
            // stores of other makers know the older way only; what is kept is compared by ourselves
            .requestChecksumCalculation(RequestChecksumCalculation.WHEN_REQUIRED)
            .responseChecksumValidation(ResponseChecksumValidation.WHEN_REQUIRED);
    address.endpoint().ifPresent(e -> builder.endpointOverride(e).forcePathStyle(true));
    S3Pictures store = new S3Pictures(builder.build(), address, root);
    try {
      store.look();
      return store;
    } catch (IOException e) {
      store.close();
      throw e;
    }
  }

  /** Looks whether the bucket is there and lets go what is removed. */
  private void look() throws IOException {
    asked(() -> client.headBucket(b -> b.bucket(address.bucket())));
    if (isKeepingVersions()) {
      throw new RefusedFolderException(
          "the store "
              + address
              + " keeps older versions: a removed picture would not be gone. Name a bucket without"
              + " versions");
    }
  }

  private boolean isKeepingVersions() throws IOException {
    try {
      return client.getBucketVersioning(b -> b.bucket(address.bucket())).status()
          == BucketVersioningStatus.ENABLED;
    } catch (S3Exception e) {
      // a store that does not know the question keeps none
      return false;
    } catch (SdkException e) {
      throw unreached(e);
    }
  }

  private String key(String book, String file) {
    return address.below() + "books/" + book + "/" + file;
  }

  /** Says in our words that the store does not do what it is asked. */
  private <T> T asked(Supplier<T> question) throws IOException {
    try {
      return question.get();
    } catch (SdkException e) {
      throw unreached(e);
    }
  }

  /** What comes of an object: that the line breaks is the store's failure, not the disk's. */
  private static final class Coming extends FilterInputStream {
    private final S3Address address;

    Coming(InputStream in, S3Address address) {
      super(in);
      this.address = address;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public int read(byte[] bytes, int from, int most) throws IOException {
      try {
        return super.read(bytes, from, most);
      } catch (IOException | SdkException e) {
        throw new StoreAwayException("the store " + address + " breaks off", e);
      }
    }
  }

  private IOException unreached(SdkException e) {
    String why =
        e instanceof S3Exception refused
            ? "it answers " + refused.statusCode()
            : String.valueOf(e.getMessage()).lines().findFirst().orElse("");
    return new StoreAwayException("the store " + address + " can't be used (" + why + ")", e);
  }

  @Override
  public void keep(String book, Path file) throws IOException {
    PictureMark mark =
        PictureMark.of(file).orElseThrow(() -> new NoSuchFileException(file.toString()));
    String key = key(book, OurFiles.name(file));
    asked(
        () ->
            client.putObject(
                b ->
                    b.bucket(address.bucket())
                        .key(key)
                        .contentLength(mark.bytes())
                        .metadata(Map.of(SHA256, mark.sha256())),
                RequestBody.fromFile(file)));
    long there =
        asked(() -> client.headObject(b -> b.bucket(address.bucket()).key(key))).contentLength();
    if (there != mark.bytes()) {
      throw new IOException(
          "the store %s kept %d of %d bytes".formatted(address, there, mark.bytes()));
    }
  }

  @Override
  public Path bring(String book, String file) throws IOException {
    Path here = root.resolve("books").resolve(book).resolve(file);
    if (Files.exists(here)) {
      return here;
    }
    Files.createDirectories(here.getParent(), Closing.folder(root));
    Path part = Files.createTempFile(here.getParent(), ".barmap", ".part");
    try (ResponseInputStream<GetObjectResponse> object = object(book, file)) {
      PictureMark mark;
      try (OutputStream out = Files.newOutputStream(part)) {
        mark = PictureMark.copy(new Coming(object, address), out);
      }
      String kept = object.response().metadata().getOrDefault(SHA256, "");
      if (!kept.isEmpty() && !kept.equals(mark.sha256())) {
        throw new DamagedPictureException(file + " is damaged in the store " + address);
      }
      WholeFile.moveInto(part, here);
      return here;
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private ResponseInputStream<GetObjectResponse> object(String book, String file)
      throws IOException {
    try {
      return client.getObject(b -> b.bucket(address.bucket()).key(key(book, file)));
    } catch (NoSuchKeyException e) {
      throw new NoSuchFileException(file);
    } catch (SdkException e) {
      if (e instanceof S3Exception refused && refused.statusCode() == NOT_FOUND) {
        throw new NoSuchFileException(file);
      }
      throw unreached(e);
    }
  }

  @Override
  public InputStream read(String book, String file) throws IOException {
    return new Coming(object(book, file), address);
  }

  @Override
  public void remove(String book, String file) throws IOException {
    Files.deleteIfExists(root.resolve("books").resolve(book).resolve(file));
    asked(() -> client.deleteObject(b -> b.bucket(address.bucket()).key(key(book, file))));
  }

  @Override
  public void removeBook(String book) throws IOException {
    for (String key : List.copyOf(listed(key(book, "")).keySet())) {
      asked(() -> client.deleteObject(b -> b.bucket(address.bucket()).key(key)));
    }
  }

  private Map<String, Long> listed(String prefix) throws IOException {
    Map<String, Long> sizes = new HashMap<>();
    asked(
        () -> {
          for (S3Object one :
              client
                  .listObjectsV2Paginator(b -> b.bucket(address.bucket()).prefix(prefix))
                  .contents()) {
            sizes.put(one.key(), one.size());
          }
          return sizes;
        });
    return sizes;
  }

  @Override
  public Map<String, Long> sizes() throws IOException {
    String prefix = address.below() + "books/";
    Map<String, Long> sizes = new HashMap<>();
    listed(prefix).forEach((key, size) -> sizes.put(key.substring(prefix.length()), size));
    return sizes;
  }

  @Override
  public void tidy(Set<String> named) throws IOException {
    Map<String, Long> there = sizes();
    for (String one : named) {
      Path here = root.resolve("books").resolve(one);
      if (!there.containsKey(one) && Files.exists(here)) {
        keep(one.substring(0, one.indexOf('/')), here);
      }
    }
    dropCopies(named);
  }

  @Override
  public void dropCopies(Set<String> named) throws IOException {
    Instant before = Instant.now().minus(UNDER_WAY);
    for (Path book : OurFiles.list(root.resolve("books"))) {
      if (OurFiles.isBook(book)) {
        for (Path file : OurFiles.list(book)) {
          String name = OurFiles.name(book) + "/" + OurFiles.name(file);
          if (!named.contains(name) && OurFiles.isPicture(file) && isOlder(file, before)) {
            Files.deleteIfExists(file);
          }
        }
      }
    }
  }

  private static boolean isOlder(Path file, Instant than) throws IOException {
    return Files.getLastModifiedTime(file, LinkOption.NOFOLLOW_LINKS).toInstant().isBefore(than);
  }

  @Override
  public boolean isElsewhere() {
    return true;
  }

  @Override
  public boolean isReady() {
    try {
      return Optional.ofNullable(asked(() -> client.headBucket(b -> b.bucket(address.bucket()))))
          .isPresent();
    } catch (IOException e) {
      return false;
    }
  }

  @Override
  public String place() {
    return address.toString();
  }

  @Override
  public void close() {
    client.close();
  }
}
