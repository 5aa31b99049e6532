/**
 * Options that several commands have in common, checked where they are understood. What {@code
 * --help} says of each option stands in {@code help.properties}.
 */
@NullMarked
package org.barmap.cli.option;

import org.jspecify.annotations.NullMarked;
