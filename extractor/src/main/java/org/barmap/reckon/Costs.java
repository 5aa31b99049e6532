package org.barmap.reckon;

/**
 * The probabilities the reckoning weighs evidence with.
 *
 * @param missedLine a barline was missed inside a bar of usual width
 * @param missedPerOctave how many times likelier that gets when the bar is twice as wide as usual
 * @param besideRest octaves by which room beside a rest counts as wider than it is
 * @param floor no reading is believed more than {@code 1 - floor} or less than {@code floor}
 * @param misreadCount a rest's numeral says something that no reading of it lists
 * @param misreadNumber a printed bar number says something that no reading of it lists
 * @param oneFigure of all misread numerals, the share with just one figure wrong
 * @param narrow a bar narrower than this share of the usual width is suspect
 * @param insideRest odds that a line within a thick rest bar is a barline, against elsewhere
 * @param openEnd a line without a closing barline still ends a bar
 * @param restartAtHeading counting starts again under the heading of a musical number
 * @param restartAfterFinal likewise after a final barline without a heading
 * @param restartElsewhere likewise at any other line
 * @param pickup share of numbers that start with a pickup
 * @param missingPages bars are missing between two lines, for each number to go on at
 * @param doubt a choice less likely than this is shown to a person
 */
record Costs(
    double missedLine,
    double missedPerOctave,
    double besideRest,
    double floor,
    double misreadCount,
    double misreadNumber,
    double oneFigure,
    double narrow,
    double insideRest,
    double openEnd,
    double restartAtHeading,
    double restartAfterFinal,
    double restartElsewhere,
    double pickup,
    double missingPages,
    double doubt) {

  /** Bar numbers a misread print may say, all alike. */
  static final int NUMBERS = 300;

  /** Counts a misread rest may say, all alike. */
  static final int COUNTS = 120;

  static final Costs DEFAULT =
      new Costs(
          0.015, 30, 2.0, 0.002, 0.03, 0.03, 0.8, 0.65, 0.02, 0.85, 0.97, 0.1, 1e-5, 0.06, 1e-8,
          0.8);
}
