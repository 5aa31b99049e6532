/** A musical number as it stands on the page, and how its bars are said. */
@NullMarked
package org.barmap.plan.reference.print;

import org.jspecify.annotations.NullMarked;
