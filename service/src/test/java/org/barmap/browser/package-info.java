/** The pages in a real browser against the real service. */
@NullMarked
package org.barmap.browser;

import org.jspecify.annotations.NullMarked;
