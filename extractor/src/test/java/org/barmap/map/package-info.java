@NullMarked
package org.barmap.map;

import org.jspecify.annotations.NullMarked;
