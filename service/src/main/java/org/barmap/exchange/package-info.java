/**
 * What leaves barmap for other people's tools, but MusicXML: a table of bars, changes in words,
 * what is misprinted. Nothing here writes page images.
 */
@NullMarked
package org.barmap.exchange;

import org.jspecify.annotations.NullMarked;
