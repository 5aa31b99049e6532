/**
 * What all routes share: the one list of errors and how they are told, what a request may say, who
 * is let in. Knows no route.
 */
@NullMarked
package org.barmap.web.api;

import org.jspecify.annotations.NullMarked;
