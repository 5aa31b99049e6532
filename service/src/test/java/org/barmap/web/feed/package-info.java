@NullMarked
package org.barmap.web.feed;

import org.jspecify.annotations.NullMarked;
