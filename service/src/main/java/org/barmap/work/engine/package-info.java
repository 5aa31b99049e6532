/**
 * Other readers of music as second readers: a command or a plugin gets upright pages and writes
 * MusicXML. It runs in a process of its own that is ended with everything it started when its time
 * is over, when it writes too much, and when this program ends, however that comes. What it wrote
 * is treated as any file of a stranger, what it read is evidence and nothing more; when it fails,
 * the book is read without it.
 */
@NullMarked
package org.barmap.work.engine;

import org.jspecify.annotations.NullMarked;
