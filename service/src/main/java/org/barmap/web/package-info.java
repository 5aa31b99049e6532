/**
 * The service in HTTP: routes, live events, access.
 *
 * <p>It listens on the loopback address, where it is shared also on the local net, answers only
 * whoever has a key ({@code access}), and only pages it served itself. Errors are {@code
 * application/problem+json} (RFC 9457), made from {@link org.barmap.web.api.ApiError} at one place.
 * What a person or a page says is sent as data, never as markup: text nodes in the browser, {@code
 * Texts} in XML, formula-looking cells disarmed in CSV.
 */
@NullMarked
package org.barmap.web;

import org.jspecify.annotations.NullMarked;
