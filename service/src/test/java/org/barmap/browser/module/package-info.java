/** Modules of the pages, called in a browser without a page around them. */
@NullMarked
package org.barmap.browser.module;

import org.jspecify.annotations.NullMarked;
