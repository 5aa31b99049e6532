/** Tests of long rests. */
@NullMarked
package org.barmap.plan.rest;

import org.jspecify.annotations.NullMarked;
