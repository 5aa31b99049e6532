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

  private PublishedOrders() {}
}
