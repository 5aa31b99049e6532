/**
 * The routes for other people's tools, one class for each thing they ask for. Takes requests and
 * what the library keeps, gives documents that are described outside the code; pages of our own are
 * served by {@code org.barmap.web.route}.
 */
@NullMarked
package org.barmap.web.feed;

import org.jspecify.annotations.NullMarked;
