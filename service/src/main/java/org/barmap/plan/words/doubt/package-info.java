/**
 * What is asked although it was understood: a message with something in it that could make it mean
 * something else.
 */
@NullMarked
package org.barmap.plan.words.doubt;

import org.jspecify.annotations.NullMarked;
