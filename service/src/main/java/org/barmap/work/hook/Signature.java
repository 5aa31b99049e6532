package org.barmap.work.hook;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Signs what is sent: HMAC-SHA256 (RFC 2104) with the secret's letters as the key, over the
 * timestamp, a point and the body.
 */
public final class Signature {

  private static final String ALGORITHM = "HmacSHA256";
  private static final int SECRET_BYTES = 32;

  private Signature() {}

  /** Returns a secret that nobody has: 256 bits as 43 letters. */
  public static String freshSecret() {
    byte[] bytes = new byte[SECRET_BYTES];
    new SecureRandom().nextBytes(bytes);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }

  /**
   * Returns a signature as it is sent, {@code sha256=} and 64 hexadecimal figures.
   *
   * @param timestamp seconds since 1970, when it is sent
   */
  static String of(String secret, long timestamp, byte[] body) {
    try {
      Mac mac = Mac.getInstance(ALGORITHM);
      mac.init(new SecretKeySpec(secret.getBytes(StandardCharsets.UTF_8), ALGORITHM));
      mac.update((timestamp + ".").getBytes(StandardCharsets.UTF_8));
      return "sha256=" + HexFormat.of().formatHex(mac.doFinal(body));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }
}
