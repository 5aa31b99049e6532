/** What a player takes into the pit: the silent stand, sheets, changes sent to a section mate. */
@NullMarked
package org.barmap.browser.pit;

import org.jspecify.annotations.NullMarked;
