/**
 * Getting ready: changes of instrument, bow, mute and extension, and the time there is for each.
 *
 * <p>What is in the player's hands at a bar is read in the order of the book, from words and
 * changes; a change is needed wherever two bars that follow each other in the order of play differ.
 */
@NullMarked
package org.barmap.plan.ready;

import org.jspecify.annotations.NullMarked;
