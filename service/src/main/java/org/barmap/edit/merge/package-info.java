/**
 * A new reading laid under what people have set: takes a draft and what the pages say now, gives
 * the draft that keeps every word of a person.
 */
@NullMarked
package org.barmap.edit.merge;

import org.jspecify.annotations.NullMarked;
