/** All rooms one after the other: what holds in each of them. */
@NullMarked
package org.barmap.browser.room;

import org.jspecify.annotations.NullMarked;
