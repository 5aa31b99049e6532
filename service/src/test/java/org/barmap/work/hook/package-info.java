@NullMarked
package org.barmap.work.hook;

import org.jspecify.annotations.NullMarked;
