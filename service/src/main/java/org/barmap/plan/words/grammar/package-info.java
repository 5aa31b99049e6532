/**
 * A small grammar of what is called out in a pit: brings a sentence to the few instructions that
 * the kinds of change read, or says what has to be asked about it. It knows words, and asks for the
 * bars they name.
 */
@NullMarked
package org.barmap.plan.words.grammar;

import org.jspecify.annotations.NullMarked;
