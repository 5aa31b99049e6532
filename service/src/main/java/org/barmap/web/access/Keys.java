package org.barmap.web.access;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * The keys there are: the owner's, made with the data folder, and those of who was let in to one
 * book. Whether a key is right is found in a time that doesn't depend on where it differs.
 */
public final class Keys {

  /** 160 bits. */
  private static final int KEY_BYTES = 20;

  /** How long a key is in base64. */
  static final int LETTERS = 27;

  private static final int ID_BYTES = 4;

  /** 160 bits in hexadecimal digits. */
  private static final int METER_LETTERS = 2 * KEY_BYTES;

  private static final int ENDED_REMEMBERED = 100;

  /** Of one book: more would not be looked through by anybody. */
  public static final int MOST_OF_A_BOOK = 50;

  private final SecureRandom random = new SecureRandom();
  private final KeyFile file;
  private final InstantSource clock;
  private final Tries tries;
  private final String owner;
  private final String cookie;
  private final String meter;
  private final boolean made;
  private final List<Invite> invites = new ArrayList<>();
  private final List<String> ended = new ArrayList<>();

  private Keys(KeyFile file, InstantSource clock) throws IOException {
    this.file = file;
    this.clock = clock;
    this.tries = new Tries(clock);
    Optional<KeyFile.Kept> kept = file.read();
    owner = kept.map(KeyFile.Kept::owner).orElseGet(() -> fresh());
    cookie = "barmap-" + hash("cookie " + owner).substring(0, 2 * ID_BYTES);
    meter = hash("metrics " + owner).substring(0, METER_LETTERS);
    made = kept.isEmpty();
    kept.ifPresent(
        k -> {
          invites.addAll(k.invites());
          ended.addAll(k.ended());
        });
    if (kept.isEmpty()) {
      file.write(now());
    }
  }

  /**
   * Opens the keys of a data folder; makes the owner's when there is none.
   *
   * @throws IOException when they can't be read or kept, with what to do
   */
  public static Keys of(Path folder, InstantSource clock) throws IOException {
    return new Keys(KeyFile.in(folder), clock);
  }

  /** Returns the key of who owns the data folder. */
  public String owner() {
    return owner;
  }

  /**
   * Returns the key that opens the figures of the service and nothing else. It follows from the
   * owner's and ends with it; the owner's does not follow from it.
   */
  public String metrics() {
    return meter;
  }

  /** Tells whether the owner's key was made just now. */
  public boolean isNew() {
    return made;
  }

  /** Tells whether a data folder has keys. */
  public static boolean areIn(Path folder) {
    return Files.isRegularFile(KeyFile.in(folder).file());
  }

  /**
   * Returns the name of the cookie for a key. It is of the data folder: browsers share cookies
   * between the ports of a machine, and of two folders each keeps its own.
   */
  public String cookie(Who who) {
    if (who instanceof Who.Meter) {
      return cookie + "-meter";
    }
    return who instanceof Who.Invited guest ? cookie + "-" + guest.invite().id() : cookie;
  }

  /** Tells whether a cookie holds a key of this data folder. */
  public boolean isCookie(String name) {
    return name.equals(cookie) || name.startsWith(cookie + "-");
  }

  /** Lets somebody in to a book. */
  public synchronized Invite invite(String book, Role role, String name, Instant until) {
    Invite made =
        new Invite(
            HexFormat.of().formatHex(bytes(ID_BYTES)),
            fresh(),
            book,
            role,
            name,
            clock.instant(),
            until);
    invites.add(made);
    keep();
    return made;
  }

  /** Returns the keys of a book that open it now, oldest first. */
  public synchronized List<Invite> invites(String book) {
    return invites.stream().filter(i -> i.book().equals(book) && isOpen(i)).toList();
  }

  /** Makes keys good for nothing. */
  public synchronized void end(Predicate<Invite> which) {
    List<Invite> gone = invites.stream().filter(which).toList();
    if (gone.isEmpty()) {
      return;
    }
    invites.removeAll(gone);
    gone.forEach(i -> ended.add(hash(i.key())));
    while (ended.size() > ENDED_REMEMBERED) {
      ended.remove(0);
    }
    keep();
  }

  /** Tells whether the key somebody came with is still good. */
  public synchronized boolean isGood(Who who) {
    return !(who instanceof Who.Invited guest)
        || isOpen(guest.invite()) && invites.contains(guest.invite());
  }

  /**
   * Looks at a key in a link.
   *
   * @param from the address it came from
   */
  public synchronized Seen look(String key, String from) {
    long wait = tries.wait(from);
    return wait > 0 ? new Seen.Slowed(wait) : lookAgain(key, from);
  }

  /**
   * Looks at a key a browser or a program has kept. A right one opens whatever else came from the
   * same address: nobody is shut out by a neighbour, for instance another account of the same
   * machine.
   */
  public synchronized Seen lookAgain(String key, String from) {
    Optional<Who> found = same(owner, key) ? Optional.of(new Who.Owner()) : Optional.empty();
    for (Invite one : invites) {
      if (same(one.key(), key)) {
        found = Optional.of(new Who.Invited(one));
      }
    }
    if (same(meter, key)) {
      found = Optional.of(new Who.Meter());
    }
    if (found.isPresent()) {
      return isGood(found.get()) ? new Seen.Known(found.get()) : new Seen.Ended();
    }
    if (ended.contains(hash(key))) {
      return new Seen.Ended();
    }
    long wait = tries.wait(from);
    if (wait > 0) {
      return new Seen.Slowed(wait);
    }
    tries.wrong(from);
    return new Seen.Wrong();
  }

  private boolean isOpen(Invite invite) {
    return clock.instant().isBefore(invite.until());
  }

  private void keep() {
    try {
      file.write(now());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private KeyFile.Kept now() {
    return new KeyFile.Kept("access/1", owner, List.copyOf(invites), List.copyOf(ended));
  }

  private String fresh() {
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes(KEY_BYTES));
  }

  private byte[] bytes(int length) {
    byte[] bytes = new byte[length];
    random.nextBytes(bytes);
    return bytes;
  }

  private static boolean same(String one, String other) {
    return MessageDigest.isEqual(
        one.getBytes(StandardCharsets.UTF_8), other.getBytes(StandardCharsets.UTF_8));
  }

  private static String hash(String text) {
    try {
      byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
