/**
 * Reading in a process of its own: decoders and networks are other people's native code, and a file
 * can be made to crash them or to keep them busy for ever. {@link
 * org.barmap.work.child.ChildReader} is what the service uses; {@link
 * org.barmap.work.child.ReadingChild} is the other end, kept alive between pages. They speak JSON
 * over the child's standard input and output. The child ends when its input does, by {@code halt}:
 * the ONNX Runtime's own shutdown hook crashes under a page that is being read.
 */
@NullMarked
package org.barmap.work.child;

import org.jspecify.annotations.NullMarked;
