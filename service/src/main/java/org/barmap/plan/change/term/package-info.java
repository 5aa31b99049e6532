/**
 * The terms changes are said in: numbers in words, note values and metronome marks, instruments,
 * reminders, and how a vamp is left.
 */
@NullMarked
package org.barmap.plan.change.term;

import org.jspecify.annotations.NullMarked;
