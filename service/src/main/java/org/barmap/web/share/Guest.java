package org.barmap.web.share;

import java.util.regex.Pattern;

/**
 * Somebody who came over the local net with a key.
 *
 * @param role what the key is for
 * @param book the only book it opens
 * @param allowed what may be asked
 */
public record Guest(Role role, String book, Pattern allowed) {

  static Guest of(Role role, String book) {
    return new Guest(role, book, role.allowed(book));
  }

  /**
   * Tells whether a guest may ask for something.
   *
   * @param path as it was sent, not decoded: what is written in an unusual way is refused
   */
  public boolean may(String method, String path) {
    return allowed.matcher(method + " " + path).matches();
  }

  /** Returns where its visit begins. */
  public String begin() {
    return role.page() + "?b=" + book;
  }
}
