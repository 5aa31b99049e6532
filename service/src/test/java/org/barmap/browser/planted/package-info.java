/**
 * What the desk is measured with: a large made book, and the demo book with errors planted in it.
 */
@NullMarked
package org.barmap.browser.planted;

import org.jspecify.annotations.NullMarked;
