/**
 * Systems cut into cells: in come the signs of a system, out come its candidate barlines with what
 * stands between and beside them (beats, gaps, room, rests, marks), and the bars a settled path
 * makes of them. Uses the signs and the map's records, no other room of the reckoning.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.cells;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
