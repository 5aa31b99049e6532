package org.barmap.exchange.musicxml.book;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Enclosure;
import org.barmap.map.Word;

/**
 * What a book takes of a measure beyond what a second reading does.
 *
 * @param words words and metronome marks over and under it
 * @param shared those of them that a score writes once for all parts: tempo, vamps
 * @param tempo quarters a minute the file plays from here on, where nothing printed says it
 * @param newLine a new line begins here
 * @param newPage a new page begins here
 * @param repeats it is drawn as a sign "same again" for so many bars; 0 for none
 * @param idle nobody plays in it, and nothing hidden stands for music
 * @param enclosure what is drawn around its rehearsal mark
 * @param quarters how long what is in it lasts, in quarters; 0 for empty
 * @param silentStart quarters of silence before its first note; empty without notes
 * @param silentEnd quarters of silence behind its last note; empty without notes
 * @param left what is in it that a bar map has no place for, with how often
 * @param remarks what the map can't say of it, one sentence each
 */
record Extra(
    List<Word> words,
    Set<Word> shared,
    Optional<Double> tempo,
    boolean newLine,
    boolean newPage,
    int repeats,
    boolean idle,
    Enclosure enclosure,
    double quarters,
    Optional<Double> silentStart,
    Optional<Double> silentEnd,
    Map<String, Integer> left,
    List<String> remarks) {

  Extra {
    words = List.copyOf(words);
    shared = Set.copyOf(shared);
    left = Map.copyOf(left);
    remarks = List.copyOf(remarks);
  }

  /** Returns the same as a bar that somebody may play in. */
  Extra notIdle() {
    return with(words, tempo, false);
  }

  /** Returns the same with other words and another tempo. */
  Extra withWords(List<Word> others, Optional<Double> otherTempo) {
    return with(others, otherTempo, idle);
  }

  private Extra with(List<Word> said, Optional<Double> plays, boolean nobody) {
    return new Extra(
        said,
        shared,
        plays,
        newLine,
        newPage,
        repeats,
        nobody,
        enclosure,
        quarters,
        silentStart,
        silentEnd,
        left,
        remarks);
  }
}
