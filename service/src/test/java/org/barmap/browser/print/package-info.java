/** What is printed oddly, asked at the desk and answered there in a browser. */
@NullMarked
package org.barmap.browser.print;

import org.jspecify.annotations.NullMarked;
