/** Tests of the process that reads. */
@NullMarked
package org.barmap.work.child;

import org.jspecify.annotations.NullMarked;
