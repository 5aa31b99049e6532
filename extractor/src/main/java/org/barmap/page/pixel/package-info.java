/**
 * Pictures in native memory: scopes that free them, maps between pixels and warps, and the steps of
 * the work with their processor time. Uses none of its neighbours.
 */
@NullMarked
package org.barmap.page.pixel;

import org.jspecify.annotations.NullMarked;
