@NullMarked
package org.barmap.library.postgres;

import org.jspecify.annotations.NullMarked;
