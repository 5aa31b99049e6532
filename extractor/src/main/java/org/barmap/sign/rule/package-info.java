/**
 * What is decided about signs by looking at the ink and at each other, without a network: in come
 * raw signs and strips, out come signs added, mended, joined or of another kind, and what words
 * mean. Uses {@code strip} and {@code kind}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.sign.rule;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
