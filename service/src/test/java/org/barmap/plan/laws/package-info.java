/** What holds for every book with every kind of change. */
@NullMarked
package org.barmap.plan.laws;

import org.jspecify.annotations.NullMarked;
