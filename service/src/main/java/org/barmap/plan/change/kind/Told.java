package org.barmap.plan.change.kind;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.barmap.map.Meter;
import org.barmap.plan.change.effect.Stretch;

/** One instruction for one number, and the ways to answer it. */
public interface Told {

  /** Returns the words, without the number's name. */
  String words();

  /** Returns the id and note the change gets. */
  Meta meta();

  /** Returns the label of the number; may be empty. */
  String number();

  /** Returns the meter at a bar, where the words name one and it is known. */
  Optional<Meter> meterAt(String bar);

  /**
   * Answers an instruction about a stretch of bars: "34 to 49", "the last four bars".
   *
   * @param said the words for the stretch; where they can't be understood, that is asked back
   * @param make makes the change
   * @param says what the bars "are", behind their names
   */
  Heard range(String said, Function<Stretch, ShowChange> make, String says);

  /**
   * Answers an instruction about one bar.
   *
   * @param where the words for the bar; where they can't be understood, that is asked back
   * @param change the change it would be
   * @param says the sentence, from the bar's name
   */
  Heard at(String where, ShowChange change, Function<String, String> says);

  /** Answers with what was understood. */
  Heard understood(ShowChange change, String says);

  /** Asks back. */
  Heard asked(String question, List<String> candidates);
}
