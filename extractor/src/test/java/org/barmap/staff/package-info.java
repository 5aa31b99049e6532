@NullMarked
package org.barmap.staff;

import org.jspecify.annotations.NullMarked;
