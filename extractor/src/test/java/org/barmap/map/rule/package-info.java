/** What follows from a map's records. */
@NullMarked
package org.barmap.map.rule;

import org.jspecify.annotations.NullMarked;
