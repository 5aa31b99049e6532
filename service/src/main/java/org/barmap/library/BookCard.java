package org.barmap.library;

import java.time.Instant;

/**
 * A book on the shelf.
 *
 * @param id opaque
 * @param title may be empty
 * @param part which chair's part, may be empty
 * @param createdAt when it was put on the shelf
 * @param pages how many pages it has, read or not
 * @param bars how many bars are written in what was read
 * @param verifiedPages how many pages a person has confirmed
 * @param doubts how many findings wait for an answer
 * @param revision of its draft
 */
public record BookCard(
    String id,
    String title,
    String part,
    Instant createdAt,
    int pages,
    int bars,
    int verifiedPages,
    int doubts,
    long revision) {

  /** Tells whether a person has confirmed every page. */
  public boolean isVerified() {
    return pages > 0 && verifiedPages >= pages;
  }
}
