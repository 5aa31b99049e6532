/**
 * What players wrote on the print: in come a page image and its staves, out come {@link
 * org.barmap.map.Page.HandMark}s.
 *
 * <p>Connected strokes of ink outside the staves are looked at, how gray they are beside the page's
 * own print, how even, where they stand and what stands beside them; a small network says how
 * likely each is by hand, and strokes close together are one mark. What is written inside a staff,
 * or joined with print, isn't found.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.sign.hand;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
