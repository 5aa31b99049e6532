package org.barmap.score;

/**
 * One difference between a reading and its truth.
 *
 * @param kind a short stable word, for instance {@code barline-missed}
 * @param page page index as the truth writes it
 * @param what in words
 */
public record ScoreError(String kind, String page, String what) {}
