/** Tests of the sign reader. */
@NullMarked
package org.barmap.sign;

import org.jspecify.annotations.NullMarked;
