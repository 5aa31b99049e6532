package org.barmap.reckon.set;

/**
 * Everything the reckoning decides by a threshold or weighs by a cost that is not fitted, step by
 * step; what is fitted stands in {@code costs.json} and {@code calibration.json}.
 *
 * <p>Not here is how something is computed without any effect on what comes out: how many sums run
 * side by side and how often weights are scaled ({@code solve}), how a table of ways back is packed
 * ({@code compare.Aligner}).
 *
 * @param cells how systems are cut into cells, and what is seen in a cell and beside a line
 * @param cost what bounds the costs
 * @param book the model of one book
 * @param write what is written into the map
 * @param compare two books laid beside each other
 * @param second a second reading of the same music as evidence
 */
public record ReckonSettings(
    CellSettings cells,
    CostSettings cost,
    BookSettings book,
    WriteSettings write,
    CompareSettings compare,
    SecondSettings second) {

  /** The settings in use. */
  public static final ReckonSettings STANDARD =
      new ReckonSettings(
          CellSettings.standard(),
          CostSettings.standard(),
          BookSettings.standard(),
          WriteSettings.standard(),
          CompareSettings.standard(),
          SecondSettings.standard());
}
