/**
 * What a maker of another reader of music implements, and the program that runs it. Only this
 * package and the JDK are on the class path beside a plugin's own jars.
 */
@NullMarked
package org.barmap.extract.engine;

import org.jspecify.annotations.NullMarked;
