package org.barmap.library.picture;

import org.gaul.s3proxy.junit.S3ProxyExtension;
import software.amazon.awssdk.auth.credentials.AwsBasicCredentials;
import software.amazon.awssdk.auth.credentials.AwsCredentialsProvider;
import software.amazon.awssdk.auth.credentials.StaticCredentialsProvider;
import software.amazon.awssdk.core.checksums.RequestChecksumCalculation;
import software.amazon.awssdk.http.urlconnection.UrlConnectionHttpClient;
import software.amazon.awssdk.regions.Region;
import software.amazon.awssdk.services.s3.S3Client;

/** A client of the tests' own, which looks into a store past the code that is tested. */
final class Outside {

  private Outside() {}

  static AwsCredentialsProvider keys(S3ProxyExtension proxy) {
    return StaticCredentialsProvider.create(
        AwsBasicCredentials.create(proxy.getAccessKey(), proxy.getSecretKey()));
  }

  static S3Client client(S3ProxyExtension proxy) {
    return S3Client.builder()
        .region(Region.US_EAST_1)
        .credentialsProvider(keys(proxy))
        .endpointOverride(proxy.getUri())
        .forcePathStyle(true)
        .httpClientBuilder(UrlConnectionHttpClient.builder())
        .requestChecksumCalculation(RequestChecksumCalculation.WHEN_REQUIRED)
        .build();
  }
}
