package org.barmap.plan.mark;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.plan.check.CutStretch;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.Piece;

/**
 * What the player has to take up where he lands behind a cut and nothing printed there says so:
 * another instrument, bow or fingers, the mute.
 */
record HandMarks(Performance performance, Held held, Pencil pencil) {
  private static final Pattern BOW = phrase("\\b(?:arco|pizz|bowed|col legno)");
  private static final Pattern MUTE = phrase("\\b(?:sord|mute)");
  private static final String OFF = "mute off";

  void mark(CutStretch cut, Optional<String> id) {
    List<Piece> pieces = performance.order().pieces();
    int before = LandingMarks.before(pieces, cut);
    int at = LandingMarks.landing(pieces, cut);
    if (at >= pieces.size() || before == at || at == 0) {
      return;
    }
    String bow = taken(held.bows(), before, at, "");
    if (!bow.isEmpty() && !says(pieces.get(at), BOW)) {
      boolean arco = bow.equals("arco");
      write(pieces.get(at), arco ? "arco" : "pizz", arco ? "arco" : bow + ".", id);
    }
    String mute = taken(held.mutes(), before, at, OFF);
    if (!mute.isEmpty() && !says(pieces.get(at), MUTE)) {
      boolean off = mute.equals(OFF);
      write(pieces.get(at), "mute", off ? "senza sord." : "con sord.", id);
    }
    String instrument = before < 0 ? "" : taken(held.instruments(), before, at, "");
    if (!instrument.isEmpty() && !prints(pieces.get(at), instrument)) {
      write(pieces.get(at), "instrument", "to " + instrument, id);
    }
  }

  /**
   * Returns what was taken up in the bars left out; empty where it is what was held before them, or
   * where the landing itself asks for it.
   */
  private static String taken(List<String> states, int before, int at, String usual) {
    String now = states.get(at);
    String was = before < 0 || states.get(before).isEmpty() ? usual : states.get(before);
    boolean inside = states.get(at - 1).equals(now);
    return inside && !now.equals(was) ? now : "";
  }

  private static boolean says(Piece piece, Pattern words) {
    return piece.first() && prints(piece.bar(), words);
  }

  static boolean prints(Bar bar, Pattern words) {
    return bar.words().stream().anyMatch(w -> words.matcher(w.text()).find());
  }

  /** Tells whether an instrument is named at a piece. */
  static boolean prints(Piece piece, String instrument) {
    Pattern name = phrase("\\b" + Pattern.quote(instrument) + "\\b");
    return piece.first() && prints(piece.bar(), name);
  }

  private void write(Piece landing, String mark, String sign, Optional<String> id) {
    pencil.add(performance.number(), landing.slot(), landing.bar(), mark, sign, id);
  }
}
