/**
 * A service in a process of its own under strain: killed while it is written to, asked by many at
 * once, fed broken files. Easy to get wrong: what is lost is told by a ledger that the driver keeps
 * for itself, never by what the service says of itself afterwards.
 */
@NullMarked
package org.barmap.bench.trust;

import org.jspecify.annotations.NullMarked;
