/** Tests of this room. */
@NullMarked
package org.barmap.page.file;

import org.jspecify.annotations.NullMarked;
