/**
 * What a photograph is made even with: in comes a picture, out come where the paper and the gutter
 * lie, the slope of its staff lines, even light and how sharp it is. Uses {@code pixel}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.page.level;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
