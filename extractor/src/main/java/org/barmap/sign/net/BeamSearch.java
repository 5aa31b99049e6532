package org.barmap.sign.net;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;

/**
 * Reads the text out of a sequence of letter probabilities.
 *
 * <p>Prefix beam search over a CTC output (Graves et al. 2006; Hannun et al. 2014): the probability
 * of a text is the sum over all alignments the beam keeps, so that the result is a distribution
 * over readings, not one answer.
 */
public final class BeamSearch {

  private static final NetSettings.Search SET = SignSettings.STANDARD.net().search();

  private static final double LEAST_LOG = Math.log(SET.leastLetter());

  private final String letters;

  /** Takes the letters of the classes 1, 2 …; class 0 is the blank. */
  BeamSearch(String letters) {
    this.letters = letters;
  }

  private static final class Mass {
    double blank;
    double letter;

    double total() {
      return blank + letter;
    }
  }

  /**
   * Reads.
   *
   * @param logs log probabilities, {@code steps} rows of {@code classes}
   * @param grammar what texts are allowed
   * @return allowed texts with their probability, best first, at most five; they sum to at most 1
   */
  List<Reading> read(float[] logs, int steps, int classes, Grammar grammar) {
    Map<String, Mass> beam = new HashMap<>();
    Mass start = new Mass();
    start.blank = 1;
    beam.put("", start);
    for (int t = 0; t < steps; t++) {
      beam = prune(step(beam, logs, t * classes, classes, grammar));
    }
    Map<String, Double> texts = new HashMap<>();
    double valid = 0;
    for (var e : beam.entrySet()) {
      String text = e.getKey().strip();
      if (!text.isEmpty() && grammar.accepts(text)) {
        texts.merge(text, e.getValue().total(), Double::sum);
        valid += e.getValue().total();
      }
    }
    if (valid < SET.leastText()) {
      return List.of();
    }
    // The box's kind already says that the text is of this form; half of the rest's mass is given
    // back to the allowed readings, half stays with "something else".
    double scale = (valid + 1) / 2 / valid;
    return texts.entrySet().stream()
        .map(e -> new Reading(e.getKey(), Math.min(1, e.getValue() * scale)))
        .sorted(Comparator.comparingDouble((Reading r) -> -r.probability()))
        .limit(SET.readings())
        .toList();
  }

  private Map<String, Mass> step(
      Map<String, Mass> beam, float[] logs, int at, int classes, Grammar grammar) {
    double blank = Math.exp(logs[at]);
    // Only letters likely enough; at most places there are none.
    char[] likely = new char[classes];
    double[] chance = new double[classes];
    int n = 0;
    for (int c = 1; c < classes; c++) {
      char letter = letters.charAt(c - 1);
      if (logs[at + c] >= LEAST_LOG && grammar.allows(letter)) {
        likely[n] = letter;
        chance[n++] = Math.exp(logs[at + c]);
      }
    }
    Map<String, Mass> next = new HashMap<>();
    for (var e : beam.entrySet()) {
      String text = e.getKey();
      Mass mass = e.getValue();
      Mass same = next.computeIfAbsent(text, k -> new Mass());
      same.blank += mass.total() * blank;
      char last = text.isEmpty() ? 0 : text.charAt(text.length() - 1);
      for (int i = 0; i < n; i++) {
        double p = chance[i];
        char letter = likely[i];
        if (letter == last) {
          same.letter += mass.letter * p;
        }
        double grown = (letter == last ? mass.blank : mass.total()) * p;
        String longer = text + letter;
        if (grown > 0 && grammar.canBegin(longer)) {
          next.computeIfAbsent(longer, k -> new Mass()).letter += grown;
        }
      }
    }
    return next;
  }

  private static Map<String, Mass> prune(Map<String, Mass> beam) {
    if (beam.size() <= SET.beam()) {
      return beam;
    }
    Map<String, Mass> best = new HashMap<>();
    beam.entrySet().stream()
        .sorted(Comparator.comparingDouble((Map.Entry<String, Mass> e) -> -e.getValue().total()))
        .limit(SET.beam())
        .forEach(e -> best.put(e.getKey(), e.getValue()));
    return best;
  }
}
