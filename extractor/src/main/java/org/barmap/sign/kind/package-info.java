/**
 * The records signs are handed on in: kinds, readings, signs in pixels of a strip and in staff
 * spaces, notes and rests. Uses none of its neighbours.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.sign.kind;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
