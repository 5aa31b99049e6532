/** Tests of checks on changes. */
@NullMarked
package org.barmap.plan.check;

import org.jspecify.annotations.NullMarked;
