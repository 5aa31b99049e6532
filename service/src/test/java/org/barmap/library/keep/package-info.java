@NullMarked
package org.barmap.library.keep;

import org.jspecify.annotations.NullMarked;
