@NullMarked
package org.barmap.cli;

import org.jspecify.annotations.NullMarked;
