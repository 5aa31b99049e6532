/**
 * What a maker of another reader of music implements, and the program that runs it. Only this
 * package and the JDK are on the class path beside a plugin's own jars.
 */
@API(status = API.Status.MAINTAINED)
@NullMarked
package org.barmap.extract.engine;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
