/** Tests of changes and addresses. */
@NullMarked
package org.barmap.plan.change;

import org.jspecify.annotations.NullMarked;
