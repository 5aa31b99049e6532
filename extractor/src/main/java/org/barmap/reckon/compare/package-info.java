/**
 * Two sequences of bars laid beside each other: in come two books, out comes which bars of them are
 * the same. Uses {@code write} and {@code cells}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.compare;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
