/**
 * Sentences by what their words say: every word has its sort ({@code lexicon.txt}), each thing that
 * can be done takes the words it needs and may have, in whatever order, and a sentence is
 * understood where none is left over.
 */
@NullMarked
package org.barmap.plan.words.clause;

import org.jspecify.annotations.NullMarked;
