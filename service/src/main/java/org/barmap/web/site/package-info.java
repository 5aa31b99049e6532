/** The pages of the site, put together from the files of {@code web-static/frame}. */
@NullMarked
package org.barmap.web.site;

import org.jspecify.annotations.NullMarked;
