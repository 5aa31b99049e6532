/**
 * Bars as regions of page images, for tools that know nothing of barmap: in come a map and the
 * addresses where it is served, out come W3C Web Annotations and IIIF documents as trees of JSON.
 * Nothing here opens a picture. Coordinates are pixels of the page image as given, as in the map.
 */
@NullMarked
package org.barmap.exchange.region;

import org.jspecify.annotations.NullMarked;
