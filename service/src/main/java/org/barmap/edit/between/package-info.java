/**
 * What is different between two maps of one book, said as corrections where they can say it.
 *
 * <p>Easy to get wrong: a correction carries further than its bar (a meter holds on, bars are
 * numbered again), so each one is made before it is asked what is still different.
 */
@NullMarked
package org.barmap.edit.between;

import org.jspecify.annotations.NullMarked;
