/**
 * The networks and how their output is decoded: in come strips and crops, out come signs in pixels,
 * sounds, and texts with probabilities. The models lie beside it as resources. Uses {@code strip}
 * and {@code kind}.
 */
@NullMarked
package org.barmap.sign.net;

import org.jspecify.annotations.NullMarked;
