/** Long rests: how many bars, what stands inside them, and how to count them. */
@NullMarked
package org.barmap.plan.rest;

import org.jspecify.annotations.NullMarked;
