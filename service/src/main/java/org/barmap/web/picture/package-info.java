/**
 * Pictures that answers hold: pages made smaller, and bars cut out of them. Takes pages the library
 * keeps, gives JPEG.
 */
@NullMarked
package org.barmap.web.picture;

import org.jspecify.annotations.NullMarked;
