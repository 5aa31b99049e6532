@NullMarked
package org.barmap.library;

import org.jspecify.annotations.NullMarked;
