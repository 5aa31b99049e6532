package org.barmap.map;

/**
 * The key signature in force in a bar.
 *
 * @param fifths sharps counted up, flats counted down: 3 is three sharps, -2 two flats, 0 none; -7
 *     to 7, as MusicXML 4.0's {@code fifths}
 * @param printed true only where it is drawn as a change, or at the first bar of a number; a
 *     signature repeated at the beginning of every line is not
 */
public record Key(int fifths, boolean printed) {

  /** The most sharps or flats a signature has. */
  public static final int MOST = 7;

  /** Returns the same key, marked as drawn here or not. */
  public Key withPrinted(boolean nowPrinted) {
    return new Key(fifths, nowPrinted);
  }

  /** Tells whether both stand for the same signature, drawn or not. */
  public boolean sameAs(Key other) {
    return fifths == other.fifths;
  }

  /** Returns the words a player would say: "3 flats", "1 sharp", "no sharps or flats". */
  public String says() {
    if (fifths == 0) {
      return "no sharps or flats";
    }
    int many = Math.abs(fifths);
    return many + (fifths > 0 ? " sharp" : " flat") + (many == 1 ? "" : "s");
  }
}
