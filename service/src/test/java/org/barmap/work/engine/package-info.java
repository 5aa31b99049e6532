@NullMarked
package org.barmap.work.engine;

import org.jspecify.annotations.NullMarked;
