package org.barmap.exchange.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.audiveris.proxymusic.Articulations;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.Fermata;
import org.audiveris.proxymusic.FormattedSymbolId;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Notations;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.Sound;
import org.barmap.map.Navigation;

/**
 * Gathers the signs and the rehearsal mark of one measure, from sounds, signs and plain words. What
 * is printed decides where a sound says something else.
 */
final class Signs {
  private static final Set<Navigation> AT_START = EnumSet.of(Navigation.SEGNO, Navigation.CODA);
  private static final Set<Navigation> AT_END =
      EnumSet.of(Navigation.TO_CODA, Navigation.FINE, Navigation.DA_CAPO, Navigation.DAL_SEGNO);
  private static final Set<Navigation> BACK = EnumSet.of(Navigation.DA_CAPO, Navigation.DAL_SEGNO);

  private final Set<Navigation> holds = EnumSet.noneOf(Navigation.class);
  private final Set<Navigation> heard = EnumSet.noneOf(Navigation.class);
  private final Set<Navigation> written = EnumSet.noneOf(Navigation.class);
  private final Set<Navigation> early = EnumSet.noneOf(Navigation.class);
  private final Set<Navigation> late = EnumSet.noneOf(Navigation.class);
  private final List<String> doubts = new ArrayList<>();
  private Optional<String> rehearsal = Optional.empty();
  private boolean played;
  private boolean alCoda;
  private boolean bareCoda;

  List<Navigation> all() {
    Set<Navigation> all = EnumSet.copyOf(holds);
    all.addAll(heard);
    all.addAll(written);
    boolean two = all.containsAll(BACK);
    if (two && written.stream().filter(BACK::contains).count() == 1) {
      all.removeIf(s -> BACK.contains(s) && !written.contains(s));
      doubts.add(
          "The words here and what the file plays go back to different places; the words count");
    }
    if (alCoda && all.stream().noneMatch(BACK::contains)) {
      all.add(Navigation.TO_CODA); // "al Coda" alone; behind a D.C. it only says how that ends
    }
    return List.copyOf(all);
  }

  Optional<String> rehearsal() {
    return rehearsal;
  }

  /** Returns what is said in two ways; complete after {@link #all}. */
  List<String> doubts() {
    return doubts;
  }

  Set<Navigation> early() {
    return early;
  }

  Set<Navigation> late() {
    return late;
  }

  boolean bareCoda() {
    return bareCoda;
  }

  void sound(Sound s) {
    Set<Navigation> all = SignWords.heard(s);
    heard.addAll(all);
    placed(all);
  }

  void direction(Direction d) {
    Set<Navigation> sounds =
        d.getSound() == null ? EnumSet.noneOf(Navigation.class) : SignWords.heard(d.getSound());
    SignWords.Written read = SignWords.written(d, sounds.contains(Navigation.TO_CODA));
    Set<Navigation> words = read.words();
    if (!words.isEmpty() && !sounds.isEmpty() && !agree(words, sounds)) {
      doubts.add("The words here and what the file plays say different things; the words count");
      sounds.clear();
    }
    boolean leaves = sounds.contains(Navigation.TO_CODA) || sounds.contains(Navigation.DAL_SEGNO);
    Set<Navigation> signs = leaves ? EnumSet.noneOf(Navigation.class) : read.signs();
    bareCoda |= signs.contains(Navigation.CODA) && sounds.isEmpty() && words.isEmpty();
    alCoda |= read.alCoda();
    heard.addAll(sounds);
    written.addAll(words);
    written.addAll(signs);
    placed(sounds);
    placed(words);
    placed(signs);
    marks(d);
  }

  /** Words and a sound agree where one of them says all that the other one says. */
  private static boolean agree(Set<Navigation> words, Set<Navigation> sounds) {
    return words.containsAll(sounds) || sounds.containsAll(words);
  }

  private void placed(Set<Navigation> signs) {
    for (Navigation sign : signs) {
      if (!played && AT_END.contains(sign)) {
        early.add(sign);
      } else if (AT_END.contains(sign)) {
        early.remove(sign);
      }
      if (played && AT_START.contains(sign)) {
        late.add(sign);
      }
    }
  }

  private void marks(Direction d) {
    for (DirectionType type : d.getDirectionType()) {
      for (Object o : type.getWordsOrSymbol()) {
        if (o instanceof FormattedSymbolId symbol && symbol.getValue() != null) {
          hold(symbol.getValue().startsWith("fermata"), Navigation.FERMATA);
          hold(symbol.getValue().startsWith("caesura"), Navigation.CAESURA);
        }
      }
      for (FormattedTextId mark : type.getRehearsal()) {
        if (mark.getValue() != null && !mark.getValue().isBlank()) {
          rehearsal = Optional.of(Texts.clip(mark.getValue().strip(), 40));
        }
      }
    }
  }

  void barline(Barline b) {
    add(b.getSegno() != null, Navigation.SEGNO);
    add(b.getCoda() != null, Navigation.CODA);
    hold(!b.getFermata().isEmpty(), Navigation.FERMATA);
  }

  void note(Note n) {
    played |= n.getGrace() == null;
    late.clear();
    for (Notations notations : n.getNotations()) {
      for (Object o : notations.getTiedOrSlurOrTuplet()) {
        hold(o instanceof Fermata, Navigation.FERMATA);
        if (o instanceof Articulations articulations) {
          for (JAXBElement<?> a : articulations.getAccentOrStrongAccentOrStaccato()) {
            hold(a.getName().getLocalPart().equals("caesura"), Navigation.CAESURA);
          }
        }
      }
    }
  }

  private void hold(boolean there, Navigation sign) {
    if (there) {
      holds.add(sign);
    }
  }

  private void add(boolean there, Navigation sign) {
    if (there) {
      written.add(sign);
    }
  }
}
