@NullMarked
package org.barmap.exchange.musicxml.write;

import org.jspecify.annotations.NullMarked;
