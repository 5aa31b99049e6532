package org.barmap.map;

/** What the book is called and which chair's part it is; both may be empty. */
public record Book(String title, String part) {}
