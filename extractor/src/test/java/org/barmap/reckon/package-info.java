@NullMarked
package org.barmap.reckon;

import org.jspecify.annotations.NullMarked;
