package org.barmap.plan.piece;

/**
 * A piece as it sounds.
 *
 * @param piece what is played
 * @param index its place among the pieces of its number
 * @param pass how often its bars have been played now, 1 for the first time
 */
public record PlayedPiece(Piece piece, int index, int pass) {}
