/** What others follow a book by, in a real browser against the real service. */
@NullMarked
package org.barmap.browser.follow;

import org.jspecify.annotations.NullMarked;
