/** Tests of planning, each checked against a source outside the project where there is one. */
@NullMarked
package org.barmap.plan;

import org.jspecify.annotations.NullMarked;
