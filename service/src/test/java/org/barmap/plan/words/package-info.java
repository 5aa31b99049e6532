/** Tests of changes said in words. */
@NullMarked
package org.barmap.plan.words;

import org.jspecify.annotations.NullMarked;
