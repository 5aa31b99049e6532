/**
 * The kinds of change. Each is one record that answers every question there is about a change: its
 * word in the format and the keys it has there (its components), the bars it is about, what it
 * does, what is written into the book for it, how it is said, and how it is understood when it is
 * said. {@link org.barmap.plan.change.kind.ShowChange} lists them.
 */
@NullMarked
package org.barmap.plan.change.kind;

import org.jspecify.annotations.NullMarked;
