/**
 * The map as JSON, {@code barmap/1}: in come records or text, out come text or records, checked by
 * the schema and the rules. Uses the records and {@code rule}.
 */
@API(status = API.Status.MAINTAINED)
@NullMarked
package org.barmap.map.json;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
