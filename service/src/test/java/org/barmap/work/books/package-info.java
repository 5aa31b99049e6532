@NullMarked
package org.barmap.work.books;

import org.jspecify.annotations.NullMarked;
