/** How commands answer: what is printed or written, whole or with a reason, and how they end. */
@NullMarked
package org.barmap.cli.out;

import org.jspecify.annotations.NullMarked;
