/** Tests of two parts of one show beside each other. */
@NullMarked
package org.barmap.exchange.chair;

import org.jspecify.annotations.NullMarked;
