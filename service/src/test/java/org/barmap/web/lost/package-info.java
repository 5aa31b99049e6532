@NullMarked
package org.barmap.web.lost;

import org.jspecify.annotations.NullMarked;
