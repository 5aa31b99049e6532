/** Tests across the rooms of the extractor. */
@NullMarked
package org.barmap;

import org.jspecify.annotations.NullMarked;
