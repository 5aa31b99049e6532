package org.barmap.web.access;

import java.time.Instant;

/**
 * A key to one book.
 *
 * @param id what it is called by in addresses; says nothing about the key
 * @param key what is shown at the door
 * @param name whom it was made for, in the words of who made it
 * @param until it opens nothing any more from then on
 */
public record Invite(
    String id, String key, String book, Role role, String name, Instant made, Instant until) {}
