/**
 * The networks and how their output is decoded: in come strips and crops, out come signs in pixels,
 * sounds, and texts with probabilities. The models lie beside it as resources. Uses {@code strip}
 * and {@code kind}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.sign.net;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
