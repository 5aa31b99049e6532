/**
 * Sends what happened to whoever registered a web hook: signed, again and again with growing
 * pauses, to no address of this machine or its net unless that is allowed.
 *
 * <p>Easy to get wrong: an address is looked at where it is connected to ({@link
 * org.barmap.work.hook.Post}), for the same name may lead elsewhere a moment later.
 */
@NullMarked
package org.barmap.work.hook;

import org.jspecify.annotations.NullMarked;
