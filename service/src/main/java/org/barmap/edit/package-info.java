/**
 * Corrections as values: what a person says about a bar map, what it changes, and how to take it
 * back.
 *
 * <p>A {@link org.barmap.edit.kind.Correction} is the intent, as small JSON; {@link
 * org.barmap.edit.Editing} checks it against the map and computes its {@link
 * org.barmap.edit.draft.Change}, values before and after, which can be applied and reverted. {@link
 * org.barmap.edit.merge.Merging} lays a new reading under what people have set. Everything here is
 * a pure function.
 */
@NullMarked
package org.barmap.edit;

import org.jspecify.annotations.NullMarked;
