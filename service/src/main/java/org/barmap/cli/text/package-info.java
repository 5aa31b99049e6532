/** What the command line prints in words: a plan, what became different, what a map holds. */
@NullMarked
package org.barmap.cli.text;

import org.jspecify.annotations.NullMarked;
