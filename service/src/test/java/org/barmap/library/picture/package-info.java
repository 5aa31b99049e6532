@NullMarked
package org.barmap.library.picture;

import org.jspecify.annotations.NullMarked;
