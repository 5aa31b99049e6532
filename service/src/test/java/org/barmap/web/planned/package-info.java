@NullMarked
package org.barmap.web.planned;

import org.jspecify.annotations.NullMarked;
