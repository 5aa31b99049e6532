/**
 * Which numbers a sentence is about, wherever in it they are named, and what is said of two of
 * them: brings it to a sentence with its number first. It knows labels and titles, no bars.
 */
@NullMarked
package org.barmap.plan.words.number;

import org.jspecify.annotations.NullMarked;
