package org.barmap.library.picture;

import java.net.URI;
import java.time.Duration;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Where an S3 store is: {@code s3://BUCKET/BELOW?endpoint=URL&region=NAME&patience=SECONDS}. Keys
 * are not in it; they are taken as all programs for such stores take them, {@code
 * AWS_ACCESS_KEY_ID} and {@code AWS_SECRET_ACCESS_KEY} among others.
 *
 * @param bucket its name
 * @param below what all names begin with; empty or ending in a slash
 * @param endpoint of the store; empty for Amazon's own
 * @param region its name, "us-east-1" unless it is said
 * @param patience how long it may take to say anything; twice that for a whole question
 */
public record S3Address(
    String bucket, String below, Optional<URI> endpoint, String region, Duration patience) {

  private static final Duration PATIENCE = Duration.ofSeconds(30);

  private static final Pattern FORM =
      Pattern.compile("s3://([a-z0-9][a-z0-9.-]{1,61}[a-z0-9])(/[\\w./-]*)?(?:\\?(.*))?");

  /** Makes one with the usual patience. */
  public S3Address(String bucket, String below, Optional<URI> endpoint, String region) {
    this(bucket, below, endpoint, region, PATIENCE);
  }

  /**
   * Reads one.
   *
   * @throws IllegalArgumentException when it is none, with how one looks
   */
  public static S3Address of(String text) {
    Matcher form = FORM.matcher(text);
    if (!form.matches()) {
      throw new IllegalArgumentException(
          "a store of pictures is named as s3://BUCKET?endpoint=https://s3.example.org");
    }
    String below = Optional.ofNullable(form.group(2)).orElse("").replaceAll("^/+|/+$", "");
    Optional<URI> endpoint = Optional.empty();
    String region = "us-east-1";
    Duration patience = PATIENCE;
    for (String option : Optional.ofNullable(form.group(3)).orElse("").split("&")) {
      if (option.startsWith("endpoint=http")) {
        endpoint = Optional.of(URI.create(option.substring("endpoint=".length())));
      } else if (option.matches("region=[a-z0-9-]+")) {
        region = option.substring("region=".length());
      } else if (option.matches("patience=[1-9]\\d{0,3}")) {
        patience = Duration.ofSeconds(Long.parseLong(option.substring("patience=".length())));
      } else if (!option.isEmpty()) {
        throw new IllegalArgumentException(
            "a store of pictures knows endpoint=, region= and patience= (in seconds) only");
      }
    }
    return new S3Address(
        form.group(1), below.isEmpty() ? "" : below + "/", endpoint, region, patience);
  }

  @Override
  public String toString() {
    return "s3://" + bucket + "/" + below + endpoint.map(e -> " at " + e.getHost()).orElse("");
  }
}
