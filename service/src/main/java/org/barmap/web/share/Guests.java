package org.barmap.web.share;

import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Optional;

/**
 * The keys there are. They are in memory only: with the program they are gone. Whether a key is
 * right is found in a time that doesn't depend on where it differs.
 */
public final class Guests {

  /** 160 bits. */
  private static final int KEY_BYTES = 20;

  private static final int ENDED_REMEMBERED = 100;

  private record Held(String key, Guest guest) {}

  private final SecureRandom random = new SecureRandom();
  private final List<InetAddress> addresses;
  private final Tries tries;
  private final List<Held> held = new ArrayList<>();
  private final List<String> ended = new ArrayList<>();

  /**
   * Knows nobody yet.
   *
   * @param addresses where the service listens besides loopback; none when it is not to be shared
   */
  public Guests(List<InetAddress> addresses, InstantSource clock) {
    this.addresses = List.copyOf(addresses);
    this.tries = new Tries(clock);
  }

  /** Returns where the service listens besides loopback. */
  public List<InetAddress> addresses() {
    return addresses;
  }

  /** Returns the key for a book and a role; a new one when there is none. */
  public synchronized String open(String book, Role role) {
    return key(book, role)
        .orElseGet(
            () -> {
              byte[] bytes = new byte[KEY_BYTES];
              random.nextBytes(bytes);
              String key = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
              held.add(new Held(key, Guest.of(role, book)));
              return key;
            });
  }

  /** Returns the key there is for a book and a role. */
  public synchronized Optional<String> key(String book, Role role) {
    return held.stream()
        .filter(h -> h.guest.book().equals(book) && h.guest.role() == role)
        .map(Held::key)
        .findFirst();
  }

  /** Makes every key of a book good for nothing. */
  public synchronized void end(String book) {
    held.stream().filter(h -> h.guest.book().equals(book)).map(Held::key).forEach(ended::add);
    held.removeIf(h -> h.guest.book().equals(book));
    while (ended.size() > ENDED_REMEMBERED) {
      ended.remove(0);
    }
  }

  /** Tells whether the key a guest came with is still good. */
  public synchronized boolean welcome(Guest guest) {
    return held.stream().anyMatch(h -> h.guest == guest);
  }

  /**
   * Looks at a key.
   *
   * @param from the address it came from
   */
  public synchronized Seen look(String key, String from) {
    long wait = tries.wait(from);
    if (wait > 0) {
      return new Seen.Slowed(wait);
    }
    Optional<Guest> found = Optional.empty();
    for (Held one : held) {
      if (same(one.key, key)) {
        found = Optional.of(one.guest);
      }
    }
    if (found.isPresent()) {
      return new Seen.Known(found.get());
    }
    if (ended.stream().filter(one -> same(one, key)).count() > 0) {
      return new Seen.Ended();
    }
    tries.wrong(from);
    return new Seen.Wrong();
  }

  private static boolean same(String one, String other) {
    return MessageDigest.isEqual(
        one.getBytes(StandardCharsets.UTF_8), other.getBytes(StandardCharsets.UTF_8));
  }
}
