/**
 * The search: in come steps with their weights, out come the path of least total cost and the
 * probability of each choice on it. Knows nothing of signs or bars and uses none of its neighbours.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.solve;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
