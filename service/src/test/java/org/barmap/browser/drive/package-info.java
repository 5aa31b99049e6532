/** Chromium itself: started, lent, given back. */
@NullMarked
package org.barmap.browser.drive;

import org.jspecify.annotations.NullMarked;
