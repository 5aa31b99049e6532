/**
 * What follows from a map's records or must hold among them: in comes a map, out come its endings
 * numbered alike and what is wrong with it. Uses the records only.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.map.rule;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
