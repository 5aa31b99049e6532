/** Tests of the whole way from files to a bar map. */
@NullMarked
package org.barmap.extract;

import org.jspecify.annotations.NullMarked;
