/**
 * What the person who runs the service asks it: whether it is well, what it does and how fast. Easy
 * to get wrong: nothing here may name a book, a page or a person; a route is named by its template.
 */
@NullMarked
package org.barmap.web.operate;

import org.jspecify.annotations.NullMarked;
