/**
 * The model of one book: in come its cut systems, out comes the settled path with the bars it
 * reads. Uses {@code cells}, {@code cost} and {@code solve}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.book;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
