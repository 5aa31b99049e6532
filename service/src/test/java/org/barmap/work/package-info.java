@NullMarked
package org.barmap.work;

import org.jspecify.annotations.NullMarked;
