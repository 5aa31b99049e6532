/**
 * Two sequences of bars laid beside each other: in come two books, out comes which bars of them are
 * the same. Uses {@code write} and {@code cells}.
 */
@NullMarked
package org.barmap.reckon.compare;

import org.jspecify.annotations.NullMarked;
