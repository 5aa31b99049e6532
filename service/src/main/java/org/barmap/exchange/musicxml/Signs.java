package org.barmap.exchange.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
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
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Navigation;

/** Gathers the signs and the rehearsal mark of one measure, from sounds, signs and plain words. */
final class Signs {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE;
  private static final Pattern DA_CAPO =
      Pattern.compile("\\s*(d\\.?\\s*c\\.?|da capo)(\\s.*)?", FLAGS);
  private static final Pattern DAL_SEGNO =
      Pattern.compile("\\s*(d\\.?\\s*s\\.?|dal segno)(\\s.*)?", FLAGS);
  private static final Pattern TO_CODA = Pattern.compile("\\s*(to|al) coda\\b.*", FLAGS);
  private static final Pattern FINE = Pattern.compile("\\s*fine\\s*", FLAGS);

  private final Set<Navigation> signs = EnumSet.noneOf(Navigation.class);
  private Optional<String> rehearsal = Optional.empty();

  List<Navigation> all() {
    return List.copyOf(signs);
  }

  Optional<String> rehearsal() {
    return rehearsal;
  }

  void sound(Sound s) {
    add(s.getDacapo() == YesNo.YES, Navigation.DA_CAPO);
    add(s.getDalsegno() != null, Navigation.DAL_SEGNO);
    add(s.getSegno() != null, Navigation.SEGNO);
    add(s.getTocoda() != null, Navigation.TO_CODA);
    add(s.getCoda() != null, Navigation.CODA);
    add(s.getFine() != null, Navigation.FINE);
  }

  void direction(Direction d) {
    if (d.getSound() != null) {
      sound(d.getSound());
    }
    // the coda's sign also stands where the coda is jumped to from: "To Coda" decides
    boolean leaves = d.getSound() != null && d.getSound().getTocoda() != null;
    for (DirectionType type : d.getDirectionType()) {
      for (Object o : type.getWordsOrSymbol()) {
        if (o instanceof FormattedTextId text && text.getValue() != null) {
          leaves |= words(Texts.clip(text.getValue(), 200));
        } else if (o instanceof FormattedSymbolId symbol && symbol.getValue() != null) {
          add(symbol.getValue().startsWith("fermata"), Navigation.FERMATA);
          add(symbol.getValue().startsWith("caesura"), Navigation.CAESURA);
        }
      }
    }
    for (DirectionType type : d.getDirectionType()) {
      add(!type.getSegno().isEmpty(), Navigation.SEGNO);
      add(!type.getCoda().isEmpty() && !leaves, Navigation.CODA);
      for (FormattedTextId mark : type.getRehearsal()) {
        if (mark.getValue() != null && !mark.getValue().isBlank()) {
          rehearsal = Optional.of(Texts.clip(mark.getValue().strip(), 40));
        }
      }
    }
  }

  /** Reads words that steer; tells whether they lead to the coda. */
  private boolean words(String text) {
    add(DA_CAPO.matcher(text).matches(), Navigation.DA_CAPO);
    add(DAL_SEGNO.matcher(text).matches(), Navigation.DAL_SEGNO);
    add(FINE.matcher(text).matches(), Navigation.FINE);
    boolean leaves = TO_CODA.matcher(text).matches();
    add(leaves, Navigation.TO_CODA);
    return leaves;
  }

  void barline(Barline b) {
    add(b.getSegno() != null, Navigation.SEGNO);
    add(b.getCoda() != null, Navigation.CODA);
    add(!b.getFermata().isEmpty(), Navigation.FERMATA);
  }

  void note(Note n) {
    for (Notations notations : n.getNotations()) {
      for (Object o : notations.getTiedOrSlurOrTuplet()) {
        add(o instanceof Fermata, Navigation.FERMATA);
        if (o instanceof Articulations articulations) {
          for (JAXBElement<?> a : articulations.getAccentOrStrongAccentOrStaccato()) {
            add(a.getName().getLocalPart().equals("caesura"), Navigation.CAESURA);
          }
        }
      }
    }
  }

  private void add(boolean there, Navigation sign) {
    if (there) {
      signs.add(sign);
    }
  }
}
