@NullMarked
package org.barmap.page;

import org.jspecify.annotations.NullMarked;
