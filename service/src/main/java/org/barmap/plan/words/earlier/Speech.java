package org.barmap.plan.words.earlier;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.words.grammar.Bars;

/** What a sentence about an earlier change needs of those that read all the others. */
public interface Speech {

  /**
   * Reads an order about a number; nothing is kept of it.
   *
   * @param number the number's label, which may be empty
   */
  List<Heard<ShowChange>> order(String number, String words);

  /** Returns the bars of a number; empty where there is none of this label. */
  Optional<Bars> bars(String number);

  /** Returns what a sentence about a number begins with: "No. 5: ". */
  String start(String number);

  /** Returns the particulars of the next change that is heard. */
  Meta next();
}
