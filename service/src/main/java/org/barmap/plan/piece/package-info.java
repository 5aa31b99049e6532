/**
 * The number taken apart: each change with the bars it names looked up ({@link
 * org.barmap.plan.piece.Span}), and the bars in pieces that are played or left out as one ({@link
 * org.barmap.plan.piece.Piece}).
 */
@NullMarked
package org.barmap.plan.piece;

import org.jspecify.annotations.NullMarked;
