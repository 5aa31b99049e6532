/**
 * The one door: keys, and what somebody who comes with one may do.
 *
 * <p>Nobody comes in without a key, at no address: other accounts of this machine reach the
 * loopback address too. The owner's is in the address that is printed at the start; others are made
 * for one book each, with a role and an end. A key is sent as a header, or once by link and then as
 * a cookie. Files of the pages themselves are open, for nothing of a book is in them.
 */
@NullMarked
package org.barmap.web.access;

import org.jspecify.annotations.NullMarked;
