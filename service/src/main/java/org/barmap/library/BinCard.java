package org.barmap.library;

import java.time.Instant;
import java.util.Optional;

/**
 * A book in the bin.
 *
 * @param id opaque
 * @param title may be empty
 * @param part which chair's part, may be empty
 * @param pages how many pages it has
 * @param discardedAt when it was put there
 * @param goneAt from when on it can't be had back; empty where it stays until a person removes it
 */
public record BinCard(
    String id,
    String title,
    String part,
    int pages,
    Instant discardedAt,
    Optional<Instant> goneAt) {}
