/** Tests of the scorer. */
@NullMarked
package org.barmap.score;

import org.jspecify.annotations.NullMarked;
