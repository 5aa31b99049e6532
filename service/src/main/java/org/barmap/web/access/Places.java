package org.barmap.web.access;

import java.net.InetAddress;
import java.net.URI;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Where the service is reached.
 *
 * @param shared addresses it listens at besides the loopback one
 * @param certificate by which it is encrypted there
 * @param behind the address of a proxy on this machine that passes requests on to the loopback
 *     address; only then is it believed what a request says it was forwarded for
 */
public record Places(
    List<InetAddress> shared, Optional<Certificate> certificate, Optional<URI> behind) {

  /** Where the service listens for this machine. */
  public static final String HERE = "127.0.0.1";

  private static final Set<String> LOOPBACK = Set.of(HERE, "localhost", "[::1]");

  /** Returns the loopback address and some others, not encrypted. */
  public static Places sharedAt(List<InetAddress> shared) {
    return new Places(shared, Optional.empty(), Optional.empty());
  }

  /** Tells whether others can reach it. */
  public boolean isShared() {
    return !shared.isEmpty() || behind.isPresent();
  }

  /**
   * Tells whether a request may call the service so.
   *
   * @param at the address it came to
   * @param host without a port
   */
  public boolean isName(String at, String host) {
    if (at.equals(HERE)) {
      return LOOPBACK.contains(host) || isBehind(at, host);
    }
    return host.equals(at) || certificate.map(c -> c.names().contains(host)).orElse(false);
  }

  /** Tells whether a request came through the proxy, by how it calls the service. */
  public boolean isBehind(String at, String host) {
    return at.equals(HERE) && behind.map(b -> host.equals(b.getHost())).orElse(false);
  }

  /**
   * Returns the addresses others reach it at, without a slash at the end.
   *
   * @param port it listens at
   */
  public List<String> bases(int port) {
    return behind
        .map(b -> List.of(b.getScheme() + "://" + b.getAuthority()))
        .orElseGet(() -> shared.stream().map(a -> base(a, port)).toList());
  }

  private String base(InetAddress address, int port) {
    return certificate
        .map(c -> "https://%s:%d".formatted(c.names().get(0), port))
        .orElseGet(() -> "http://%s:%d".formatted(address.getHostAddress(), port));
  }
}
