/** Tests of how pages lie. */
@NullMarked
package org.barmap.plan.page;

import org.jspecify.annotations.NullMarked;
