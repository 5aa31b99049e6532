/** Tests of tables. */
@NullMarked
package org.barmap.exchange.table;

import org.jspecify.annotations.NullMarked;
