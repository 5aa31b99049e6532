package org.barmap.plan.reference;

/**
 * A vamp or a safety.
 *
 * @param kind "vamp" or "safety"
 * @param from place of its first bar in the number
 * @param to place of its last bar in the number
 */
record OpenStretch(String kind, int from, int to) {}
