/**
 * The records signs are handed on in: kinds, readings, signs in pixels of a strip and in staff
 * spaces, notes and rests. Uses none of its neighbours.
 */
@NullMarked
package org.barmap.sign.kind;

import org.jspecify.annotations.NullMarked;
