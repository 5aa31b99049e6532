/**
 * The map written: in come the bars of a settled book, out come the map's entries with their
 * attributes and confidence, and findings where something had to be bent. Uses {@code cells},
 * {@code cost} and {@code book}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.write;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
