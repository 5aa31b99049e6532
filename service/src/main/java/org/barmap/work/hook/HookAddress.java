package org.barmap.work.hook;

import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.UnknownHostException;
import java.util.Locale;
import java.util.Optional;

/** Looks at an address before anything is registered for it. */
public final class HookAddress {

  private static final int MOST_LETTERS = 1000;

  private HookAddress() {}

  /** Returns why an address is not taken, a sentence for a person; empty when it is. */
  public static Optional<String> problem(String text, NetRules rules) {
    if (text.length() > MOST_LETTERS) {
      return Optional.of("An address has at most " + MOST_LETTERS + " letters");
    }
    URI address;
    try {
      address = new URI(text);
    } catch (URISyntaxException e) {
      return Optional.of("That is no address, as https://example.org/barmap is one");
    }
    String scheme = Optional.ofNullable(address.getScheme()).orElse("").toLowerCase(Locale.ROOT);
    if (address.getHost() == null || !scheme.equals("https") && !scheme.equals("http")) {
      return Optional.of("An address begins with https:// and a name");
    }
    if (address.getRawUserInfo() != null || address.getRawFragment() != null) {
      return Optional.of("An address has no name and password in it, and no #");
    }
    if (address.getPort() == 0 || address.getPort() > 65_535) {
      return Optional.of("A port is 1 to 65535");
    }
    return where(address, scheme, rules);
  }

  private static Optional<String> where(URI address, String scheme, NetRules rules) {
    try {
      for (InetAddress one : InetAddress.getAllByName(address.getHost())) {
        Optional<String> refusal = rules.refusal(one);
        if (refusal.isPresent()) {
          return refusal;
        }
        if (scheme.equals("http") && !rules.isOwn(one)) {
          return Optional.of("Over the internet it has to be https://");
        }
      }
      return Optional.empty();
    } catch (UnknownHostException e) {
      return Optional.of("There is no machine called " + address.getHost());
    }
  }
}
