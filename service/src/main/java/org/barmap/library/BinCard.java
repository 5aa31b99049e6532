package org.barmap.library;

import java.time.Instant;

/**
 * A book in the bin.
 *
 * @param id opaque
 * @param title may be empty
 * @param part which chair's part, may be empty
 * @param pages how many pages it has
 * @param discardedAt when it was put there
 * @param goneAt from when on it can't be had back
 */
public record BinCard(
    String id, String title, String part, int pages, Instant discardedAt, Instant goneAt) {}
