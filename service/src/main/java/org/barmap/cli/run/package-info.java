/**
 * What every command needs around it: where libraries in machine code lie, what is logged, how a
 * signal ends it, how a service is warm when the first person comes.
 */
@NullMarked
package org.barmap.cli.run;

import org.jspecify.annotations.NullMarked;
