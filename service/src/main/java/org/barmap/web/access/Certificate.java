package org.barmap.web.access;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;

/**
 * A certificate with its key, by which others of the net reach the service encrypted.
 *
 * @param store has both (PKCS #12)
 * @param names the service is called in the certificate (RFC 5280, 4.2.1.6), the first one in links
 */
public record Certificate(KeyStore store, String password, List<String> names) {

  /** How a name of the domain name system is marked in a certificate. */
  private static final Integer DNS = 2;

  /**
   * Reads one.
   *
   * @param file PKCS #12
   * @throws IOException when it can't be read, or holds none with its key and a name
   */
  public static Certificate read(Path file, String password) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      KeyStore store = KeyStore.getInstance("PKCS12");
      store.load(in, password.toCharArray());
      List<String> names = new ArrayList<>();
      for (String alias : Collections.list(store.aliases())) {
        if (store.isKeyEntry(alias)
            && store.getCertificate(alias) instanceof X509Certificate certificate) {
          names.addAll(names(certificate));
        }
      }
      if (names.isEmpty()) {
        throw new IOException(file + " holds no certificate with its key and a name");
      }
      return new Certificate(store, password, List.copyOf(names));
    } catch (GeneralSecurityException e) {
      throw new IOException(file + " can't be used: " + e.getMessage(), e);
    }
  }

  private static List<String> names(X509Certificate certificate) throws GeneralSecurityException {
    Collection<List<?>> all = certificate.getSubjectAlternativeNames();
    return all == null
        ? List.of()
        : all.stream()
            .filter(n -> DNS.equals(n.get(0)))
            .map(n -> String.valueOf(n.get(1)))
            .toList();
  }
}
