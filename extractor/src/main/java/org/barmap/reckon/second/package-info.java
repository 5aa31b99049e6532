/**
 * What a second reading of the same music says of a map: in come both, laid beside each other, out
 * come findings and evidence for settling again. Uses {@code compare}, {@code write} and {@code
 * cells}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.second;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
