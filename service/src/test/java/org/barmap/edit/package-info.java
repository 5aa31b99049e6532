@NullMarked
package org.barmap.edit;

import org.jspecify.annotations.NullMarked;
