package org.barmap.sign.set;

/**
 * When a house sets its marks, or its bar numbers, under its staves. Units as {@link SignSettings}
 * says.
 *
 * @param sure a sign under a staff surer than this speaks for it
 * @param fewest so many of a page at least; one alone is a word more likely
 * @param share bar numbers stand under so many of the staves at least: who numbers lines numbers
 *     most of them, and the figures of triplets under a few are none (a real print had four on 16)
 * @param same two boxes are of the same ink when their middles are this near, spaces
 * @param piece a sign that has this share of its box in common with one under the staff is that one
 */
public record UnderSettings(double sure, int fewest, double share, double same, double piece) {

  /** The settings in use. */
  static final UnderSettings STANDARD =
      new UnderSettings(
          /* sure= */ 0.6, /* fewest= */ 2, /* share= */ 0.5, /* same= */ 1.5, /* piece= */ 0.5);
}
