package org.barmap.exchange.musicxml.write;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.audiveris.proxymusic.AboveBelow;
import org.audiveris.proxymusic.Coda;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.EnclosureShape;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Segno;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Bar;
import org.barmap.map.Enclosure;
import org.barmap.map.Navigation;
import org.barmap.map.Placement;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;
import org.barmap.plan.change.term.Metronome;

/** Writes what stands over and under a bar. Signs are tied together within a musical number. */
final class DirectionWriter {
  private static final Pattern PIZZICATO = Pattern.compile("pizz(?:\\.|icato)?");
  private static final Pattern TIMES =
      Pattern.compile("(?i).*(?:\\d\\s*x\\b|\\bx\\s*\\d|\\btimes\\b|\\btwice\\b).*");
  private static final Pattern ARCO = Pattern.compile("(?:col )?arco");

  private int number;
  private Form form = Form.NONE;

  /** Begins another musical number: its segno and coda are its own. */
  void nextNumber(Form next) {
    number++;
    form = next;
  }

  /** Says that a repeat begins where no sign for it stands; at the very beginning it is clear. */
  Optional<Sound> impliedRepeat(boolean inTheMiddle) {
    if (!inTheMiddle || !form.openRepeat()) {
      return Optional.empty();
    }
    Sound sound = new Sound();
    sound.setForwardRepeat(YesNo.YES);
    return Optional.of(sound);
  }

  /** Returns what counts at a bar's start. */
  List<Direction> atStart(Bar bar) {
    List<Direction> out = new ArrayList<>();
    bar.rehearsal().ifPresent(mark -> out.add(rehearsal(mark)));
    if (bar.has(Navigation.SEGNO)) {
      DirectionType type = new DirectionType();
      type.getSegno().add(new Segno());
      Sound sound = new Sound();
      sound.setSegno("segno" + number);
      out.add(direction(type, true, sound));
    }
    if (bar.has(Navigation.CODA)) {
      DirectionType type = new DirectionType();
      type.getCoda().add(new Coda());
      Sound sound = new Sound();
      sound.setCoda("coda" + number);
      out.add(direction(type, true, sound));
    }
    for (Word word : bar.words()) {
      if (!saysAJump(bar, word) && !Form.ofAJump(bar, word)) {
        out.add(worded(word));
      }
    }
    timesInWords(bar).ifPresent(words -> out.add(words(words, true)));
    return out;
  }

  /** Returns how often a bar is played that no repeat sign is at, where no word says it yet. */
  private static Optional<String> timesInWords(Bar bar) {
    boolean said =
        bar.endBarline().endsRepeat()
            || bar.words().stream().anyMatch(w -> TIMES.matcher(w.text()).matches());
    return said ? Optional.empty() : bar.times().map(n -> n + "X");
  }

  /** Returns what counts at a bar's end. */
  List<Direction> atEnd(Bar bar) {
    List<Direction> out = new ArrayList<>();
    if (bar.has(Navigation.TO_CODA)) {
      Sound sound = new Sound();
      sound.setTocoda("coda" + number);
      out.add(direction(text(read(bar, "coda", "To Coda")), true, sound));
    }
    if (bar.has(Navigation.FINE)) {
      Sound sound = new Sound();
      sound.setFine("yes");
      out.add(direction(text(read(bar, "fine", "Fine")), true, sound));
    }
    if (bar.has(Navigation.DA_CAPO)) {
      Sound sound = new Sound();
      sound.setDacapo(YesNo.YES);
      out.add(direction(text(read(bar, "d", form.worded("D.C."))), true, sound));
    }
    if (bar.has(Navigation.DAL_SEGNO)) {
      Sound sound = new Sound();
      sound.setDalsegno("segno" + number);
      out.add(direction(text(read(bar, "d", form.worded("D.S."))), true, sound));
    }
    bar.words().stream()
        .filter(w -> !saysAJump(bar, w) && Form.ofAJump(bar, w))
        .forEach(w -> out.add(worded(w)));
    return out;
  }

  /** Tells whether a word is the wording of one of the bar's jumps, written with the jump. */
  private static boolean saysAJump(Bar bar, Word word) {
    String w = word.text().strip().toLowerCase(Locale.ROOT);
    boolean jumps = bar.has(Navigation.DA_CAPO) || bar.has(Navigation.DAL_SEGNO);
    return (jumps && w.matches("d\\.?\\s*[cs]\\b.*|da capo.*|dal segno.*"))
        || (bar.has(Navigation.TO_CODA) && w.startsWith("to coda"))
        || (bar.has(Navigation.FINE) && w.equals("fine"));
  }

  private static String read(Bar bar, String hint, String otherwise) {
    return bar.words().stream()
        .filter(w -> saysAJump(bar, w) && w.text().toLowerCase(Locale.ROOT).contains(hint))
        .filter(w -> !hint.equals("coda") || w.text().toLowerCase(Locale.ROOT).startsWith("to"))
        .map(Word::text)
        .findFirst()
        .orElse(otherwise);
  }

  /** Returns words read at a bar; what they say of tempo and bow also steers. */
  private static Direction worded(Word word) {
    Direction direction = words(word.text(), word.where() == Placement.ABOVE);
    Sound sound = new Sound();
    Metronome.quartersPerMinute(word.text())
        .ifPresent(quarters -> sound.setTempo(BigDecimal.valueOf(quarters).stripTrailingZeros()));
    String text = word.text().strip().toLowerCase(Locale.ROOT);
    if (PIZZICATO.matcher(text).matches()) {
      sound.setPizzicato(YesNo.YES);
    } else if (ARCO.matcher(text).matches()) {
      sound.setPizzicato(YesNo.NO);
    }
    if (sound.getTempo() != null || sound.getPizzicato() != null) {
      direction.setSound(sound);
    }
    return direction;
  }

  /** Returns plain words. */
  static Direction words(String words, boolean above) {
    return direction(text(words), above, null);
  }

  private static DirectionType text(String words) {
    FormattedTextId text = new FormattedTextId();
    text.setValue(XmlText.clean(words));
    DirectionType type = new DirectionType();
    type.getWordsOrSymbol().add(text);
    return type;
  }

  private static Direction rehearsal(RehearsalMark mark) {
    FormattedTextId text = new FormattedTextId();
    text.setValue(XmlText.clean(mark.text()));
    Enclosure enclosure = mark.enclosure();
    text.setEnclosure(
        switch (enclosure) {
          case BOX -> EnclosureShape.RECTANGLE;
          case CIRCLE -> EnclosureShape.CIRCLE;
          case NONE -> EnclosureShape.NONE;
        });
    DirectionType type = new DirectionType();
    type.getRehearsal().add(text);
    return direction(type, true, null);
  }

  private static Direction direction(
      DirectionType type, boolean above, @org.jspecify.annotations.Nullable Sound sound) {
    Direction direction = new Direction();
    direction.getDirectionType().add(type);
    direction.setPlacement(above ? AboveBelow.ABOVE : AboveBelow.BELOW);
    if (sound != null) {
      direction.setSound(sound);
    }
    return direction;
  }
}
