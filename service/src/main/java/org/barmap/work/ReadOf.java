package org.barmap.work;

import java.util.Map;

/** How many pages of jobs were read here; of jobs that others went on with it is forgotten. */
final class ReadOf {

  private static final int MOST = 1000;

  private final Map<String, Integer> pages = new Latest<>(MOST);

  /** Counts another one of a job, and returns how many there are. */
  synchronized int count(String job) {
    return pages.merge(job, 1, Integer::sum);
  }
}
