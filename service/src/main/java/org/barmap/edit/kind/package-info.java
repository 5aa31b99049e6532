/**
 * The kinds of correction: what a person says, as small JSON, checked against a draft and applied
 * to it. Takes drafts, gives drafts; knows neither history nor readings.
 */
@NullMarked
package org.barmap.edit.kind;

import org.jspecify.annotations.NullMarked;
