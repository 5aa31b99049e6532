package org.barmap.map;

/** A rehearsal letter or number standing over a bar's start. */
public record RehearsalMark(String text, Enclosure enclosure) {}
