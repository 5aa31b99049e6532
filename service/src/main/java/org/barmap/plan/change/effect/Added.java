package org.barmap.plan.change.effect;

/**
 * Bars that are not in the book.
 *
 * @param bars how many
 * @param name what they are called
 */
public record Added(int bars, String name) {}
