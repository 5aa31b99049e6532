package org.barmap.plan;

/** Written bars and the order they sound in, as other people's programs are tested by. */
public final class PublishedOrders {

  /**
   * Bars as {@link Books} writes them; the numbers they sound in. Source: repeat-expansion tests of
   * the music21 toolkit (test_repeat.py, commit 3146cb0).
   */
  public static final String MUSIC21 =
      """
      |:1 |:2 3:| 4:|                          ; 1 2 3 2 3 4 1 2 3 2 3 4
      1 2:| 3 4                                ; 1 2 1 2 3 4
      1 |:2:|x1 3                              ; 1 2 3
      1 |:2:| 3                                ; 1 2 2 3
      1 |:2:|x2 3                              ; 1 2 2 3
      1 |:2:|x4 3                              ; 1 2 2 2 2 3
      1 2 3@dc 4                               ; 1 2 3 1 2 3 4
      1 2@fine 3@dc 4                          ; 1 2 3 1 2
      1 2@to 3@dc 4@coda 5                     ; 1 2 3 1 2 4 5
      1 2@segno 3@ds 4                         ; 1 2 3 2 3 4
      1 2@segno 3@fine 4@ds 5                  ; 1 2 3 4 2 3
      1 2@segno@to 3 4@ds 5 6@coda 7           ; 1 2 3 4 2 6 7
      1 2@to |:3:|@dc 4 5@coda                 ; 1 2 3 3 1 2 5
      1 2/1,2 3/1,2:| 4/3 5                    ; 1 2 3 1 2 3 1 4 5
      1 2/1,2 3/1,2:| 4/3:| 5/4 6 7 8          ; 1 2 3 1 2 3 1 4 1 5 6 7 8
      """;

  /**
   * Bars; whether repeats are played again after a D.C.; how many bars sound. Source: the same; the
   * row with a repeat and a plain D.C., both ways.
   */
  public static final String MUSIC21_DA_CAPO =
      """
      1 2 |:3:| 4@dc 5 ; false ; 10
      1 2 |:3:| 4@dc 5 ; true  ; 11
      """;

  /** Forms that toolkit rejects (as above); what is found in them here. */
  public static final String MUSIC21_REJECTS =
      """
      1 2 3@ds 4                    ; segno-missing
      1 2@to 3@dc 4 5               ; coda-missing
      1 2 3@dc 4@coda 5             ; to-coda-missing
      1@segno 2 3@dc@ds 4           ; jump-twice
      1 2/1 3/1:| 4/1,2 5           ; endings-overlap
      1 2/2:| 3/3 4                 ; endings-start
      1 2/1 3/2 4                   ; ending-not-closed
      1 |:2 3 4                     ; repeat-not-closed
      """;

  /** Bars of {@link #PARTITURA}. */
  public static final String PARTITURA_BARS = "1:| 2 |:3 4@fine 5/1:| 6/2 7/2:| 8/3@dc";

  /**
   * Whether repeats are played again after a D.C.; the numbers {@link #PARTITURA_BARS} sound in.
   * Source: tests of the partitura toolkit (commit e01626b), which takes them; the 17 bars without
   * are computed from it.
   */
  public static final String PARTITURA =
      """
      true  ; 1 1 2 3 4 5 3 4 6 7 3 4 8 1 1 2 3 4
      false ; 1 1 2 3 4 5 3 4 6 7 3 4 8 1 2 3 4
      """;

  private PublishedOrders() {}
}
