/**
 * The routes, one class for each thing a page asks about, and the views of it they send. Takes
 * requests, asks the library, the planner and the worker, gives JSON, pictures and sheets.
 */
@NullMarked
package org.barmap.web.route;

import org.jspecify.annotations.NullMarked;
