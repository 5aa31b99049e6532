/**
 * The service over the local net: keys, and what somebody who comes with one may do.
 *
 * <p>Who asks over the loopback address needs no key. Everybody else needs one, which is made when
 * a person at this machine opens a book, and is good for that book only, until it is closed.
 */
@NullMarked
package org.barmap.web.share;

import org.jspecify.annotations.NullMarked;
