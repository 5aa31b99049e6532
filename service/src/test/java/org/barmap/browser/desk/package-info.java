/** What is done at the desk with many bars, with fingers, and in odd cases. */
@NullMarked
package org.barmap.browser.desk;

import org.jspecify.annotations.NullMarked;
