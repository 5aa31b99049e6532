@NullMarked
package org.barmap.bench.trust;

import org.jspecify.annotations.NullMarked;
