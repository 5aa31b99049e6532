/**
 * Reading jobs: taken from the library's queue one after the other, with progress, gone on with
 * after a kill, given up after three tries.
 */
@NullMarked
package org.barmap.work;

import org.jspecify.annotations.NullMarked;
