package org.barmap.library.sql;

import java.security.SecureRandom;

/** Makes opaque ids: ten letters and digits that can't be mixed up when read aloud. */
final class Ids {

  private static final String ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789";
  private static final SecureRandom RANDOM = new SecureRandom();

  private Ids() {}

  /** Returns an id nobody else has. */
  static String make() {
    StringBuilder id = new StringBuilder(10);
    for (int i = 0; i < 10; i++) {
      id.append(ALPHABET.charAt(RANDOM.nextInt(ALPHABET.length())));
    }
    return id.toString();
  }
}
