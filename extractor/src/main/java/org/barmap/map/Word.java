package org.barmap.map;

import java.util.Optional;

/**
 * Words read at a bar: tempo, vamp, tacet, an instrument change.
 *
 * @param text as read; data, never markup
 * @param where over or under the staff
 * @param box where it stands on the page, if known
 */
public record Word(String text, Placement where, Optional<Outline> box) {}
