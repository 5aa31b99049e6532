/**
 * Reading jobs: a step of a book at a time, as the library gives books their turns, with progress,
 * gone on with after a kill; one that fails is put off for longer and longer, and given up in the
 * end.
 */
@NullMarked
package org.barmap.work;

import org.jspecify.annotations.NullMarked;
