package org.barmap.library;

/**
 * A value and which revision of it this is.
 *
 * @param revision counts up with every change
 * @param value the value
 * @param <T> kind of value
 */
public record Versioned<T>(long revision, T value) {}
