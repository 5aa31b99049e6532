/** Tests of this room. */
@NullMarked
package org.barmap.sign.rule;

import org.jspecify.annotations.NullMarked;
