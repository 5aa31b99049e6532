package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.audiveris.proxymusic.AboveBelow;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Metronome;
import org.audiveris.proxymusic.YesNo;
import org.barmap.exchange.musicxml.Texts;
import org.barmap.map.Placement;
import org.barmap.map.Word;
import org.barmap.plan.change.term.TempoWords;

/**
 * The words of one direction, its metronome mark among them.
 *
 * @param word all of it as one text; empty where nothing is said
 * @param relation a mark that sets one note value equal to another, which the binding cannot tell
 */
record Texted(Optional<Word> word, boolean relation) {
  private static final int MOST = 200;
  private static final Map<String, String> NOTES =
      Map.of(
          "quarter", "\u2669",
          "eighth", "\u266A",
          "half", "half",
          "whole", "whole",
          "16th", "sixteenth");
  private static final Pattern OPEN =
      Pattern.compile("(?i).*\\b(?:vamp|safety|till cue|until cue|on cue|tacet|g\\. ?p\\.).*");

  static Texted of(Direction d) {
    StringBuilder text = new StringBuilder();
    boolean relation = false;
    for (DirectionType type : d.getDirectionType()) {
      for (Object o : type.getWordsOrSymbol()) {
        if (o instanceof FormattedTextId t && t.getValue() != null) {
          append(text, Texts.clip(t.getValue(), MOST));
        }
      }
      Metronome mark = type.getMetronome();
      if (mark != null && mark.getPrintObject() != YesNo.NO) {
        String said = said(mark);
        relation |= said.isEmpty();
        append(text, said);
      }
    }
    String all =
        text.toString().replaceAll("\\s+", " ").replace("( ", "(").replace(" )", ")").strip();
    if (all.isEmpty()) {
      return new Texted(Optional.empty(), relation);
    }
    Placement where = d.getPlacement() == AboveBelow.BELOW ? Placement.BELOW : Placement.ABOVE;
    return new Texted(
        Optional.of(new Word(Texts.clip(all, MOST), where, Optional.empty())), relation);
  }

  private static void append(StringBuilder text, String more) {
    if (text.length() > 0 && !more.isEmpty()) {
      text.append(' ');
    }
    text.append(more);
  }

  /** Returns a metronome mark in words, "♩. = 120"; empty for one that names no figure. */
  private static String said(Metronome mark) {
    String note = NOTES.getOrDefault(mark.getBeatUnit() == null ? "" : mark.getBeatUnit(), "");
    if (note.isEmpty() || mark.getPerMinute() == null || mark.getPerMinute().getValue() == null) {
      return "";
    }
    String figure = Texts.clip(mark.getPerMinute().getValue().strip(), 40);
    boolean dotted = !mark.getBeatUnitDot().isEmpty();
    boolean sign = note.length() == 1;
    String said = (dotted && !sign ? "dotted " : "") + note + (dotted && sign ? "." : "");
    String whole = said + " = " + figure;
    return mark.getParentheses() == YesNo.YES ? "(" + whole + ")" : whole;
  }

  /** Returns a tempo as a metronome mark says it. */
  static String quarters(double perMinute) {
    String figure =
        perMinute == Math.rint(perMinute)
            ? Long.toString((long) perMinute)
            : Double.toString(Math.rint(perMinute * 10) / 10);
    return "\u2669 = " + figure;
  }

  /** Tells whether words hold for everybody, so that a score writes them once. */
  static boolean forAll(Word word) {
    return TempoWords.read(word.text()).kind() != TempoWords.Kind.NONE
        || OPEN.matcher(word.text()).matches();
  }

  /** Returns the quarters a minute that words name. */
  static OptionalDouble tempo(Word word) {
    return org.barmap.plan.change.term.Metronome.quartersPerMinute(word.text());
  }

  /** Returns the texts of words, in order. */
  static List<String> texts(List<Word> words) {
    List<String> texts = new ArrayList<>();
    words.forEach(w -> texts.add(w.text()));
    return texts;
  }
}
