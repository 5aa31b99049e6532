/**
 * Two parts of one show beside each other: in come two maps and the places a person named, out come
 * what each bar is called in the other part, a table of it, and changes said in the other part's
 * bars.
 */
@NullMarked
package org.barmap.exchange.chair;

import org.jspecify.annotations.NullMarked;
