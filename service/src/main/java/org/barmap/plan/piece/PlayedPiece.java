package org.barmap.plan.piece;

/**
 * A piece as it sounds.
 *
 * @param piece what is played
 * @param index its place among the pieces of its number
 * @param pass how often its bars have been played now, 1 for the first time
 * @param round which time through the repeat around it
 * @param silent the player rests although the book has notes: the piece is a rest this time
 */
public record PlayedPiece(Piece piece, int index, int pass, Round round, boolean silent) {

  /** Returns a piece as the book has it. */
  public static PlayedPiece of(Piece piece, int index, int pass, Round round) {
    return new PlayedPiece(piece, index, pass, round, false);
  }

  /** Returns the same piece, played so often now. */
  public PlayedPiece counted(int times) {
    return new PlayedPiece(piece, index, times, round, silent);
  }

  /** Returns the same place with a rest in it. */
  public PlayedPiece resting(Piece rest) {
    return new PlayedPiece(rest, index, pass, round, true);
  }

  /** Returns the same place with less of it played. */
  public PlayedPiece shortened(Piece rest) {
    return new PlayedPiece(rest, index, pass, round, silent);
  }
}
