@NullMarked
package org.barmap.bench;

import org.jspecify.annotations.NullMarked;
