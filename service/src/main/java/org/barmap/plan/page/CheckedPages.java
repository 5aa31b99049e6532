package org.barmap.plan.page;

/**
 * How much of the book a person has looked at.
 *
 * @param pages pages on which every bar was confirmed or set by a person
 * @param of pages with bars, and pages that could not be read
 */
public record CheckedPages(int pages, int of) {}
