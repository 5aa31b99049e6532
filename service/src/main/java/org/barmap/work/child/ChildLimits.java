package org.barmap.work.child;

import java.time.Duration;

/**
 * How much a page may cost before it is given up.
 *
 * @param page from one answer of the child to the next: decoding a page, or reading it with the
 *     models loaded first. A dense page takes some 6 s on a laptop of two cores, the largest
 *     picture that is opened ({@link org.barmap.page.file.Limits}) some 30 s
 * @param count for the number of pages in a file, while a person waits for the upload
 * @param heap of the child, MB; its native memory comes on top
 * @param tries so often a page is begun when the child ends under it: the reason may have been
 *     another page, or the system's want of memory
 * @param kills so often a page is begun when the child is killed from outside: that is no fault of
 *     the page, unless the system does it for the memory that the page takes
 * @param lostOfFile when so many pages of one file are lost, the rest of it is not opened
 */
record ChildLimits(Duration page, Duration count, int heap, int tries, int kills, int lostOfFile) {

  static final ChildLimits STANDARD =
      new ChildLimits(
          /* page= */ Duration.ofMinutes(2),
          /* count= */ Duration.ofSeconds(20),
          /* heap= */ 1024,
          /* tries= */ 2,
          /* kills= */ 10,
          /* lostOfFile= */ 3);
}
