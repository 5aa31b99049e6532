/** Holds every request of the tests to the description of the service, {@code openapi.yaml}. */
@NullMarked
package org.barmap.web.contract;

import org.jspecify.annotations.NullMarked;
