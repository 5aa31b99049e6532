package org.barmap.library;

import java.time.Instant;

/**
 * A line of the history.
 *
 * @param id opaque
 * @param when the moment it was made
 * @param who who made it; may be empty
 * @param text what, one line
 * @param undone whether it was taken back
 */
public record HistoryEntry(String id, Instant when, String who, String text, boolean undone) {}
