package org.barmap.exchange.musicxml;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.FormattedSymbolId;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Navigation;

/** What sounds, words and signs of one direction say about the order of play. */
final class SignWords {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE | Pattern.DOTALL;
  private static final String BEFORE = "[\\s(\\[]*(?:(?:then|and)\\s+)?";
  private static final Pattern DA_CAPO =
      Pattern.compile(
          BEFORE + "(?:d\\.?\\s*c\\.|d\\.?c\\b|d\\.?\\s?c\\b(?=\\W*$|\\s+al\\b)|da\\s+capo\\b).*",
          FLAGS);
  private static final Pattern DAL_SEGNO =
      Pattern.compile(
          BEFORE
              + "(?:d\\.?\\s*s\\.|d\\.?\\s?s\\b|(?:dal|al)\\s+(?:segno\\b|\\x{1D10B}|\\uE047)|d\\.?\\s?\\x{1D10B}).*",
          FLAGS);

  /** What may stand round "to Coda": in which time through, on what, and how one gets there. */
  private static final String WHEN =
      "(?:go|jump|skip|cut|straight|directly|right|then|and|or|last|final|first|second|third|\\d+\\.?(?:st|nd|rd|th)?|x|times?|only|on|after|at|for|repeats?|the|ends?|pass|open|d\\.?\\s?[cs]\\.?|d\\.?\\s?[cs]\\.?\\s+al|dal|segno|da|capo|al|cue|when|if|signal|solos?|done|till|until|vamp|fine|sign|play|out)";

  private static final Pattern TO_CODA =
      Pattern.compile(
          "(?:[\\s,.:;()\\[\\]-]*"
              + WHEN
              + "\\b)*[\\s,.:;()\\[\\]-]*to\\s+(?:the\\s+)?(?:coda\\b|\\x{1D10C}|\\uE048)(?:[\\s,.:;()\\[\\]*-]|\\x{1D10C}|\\uE048|"
              + WHEN
              + "\\b)*",
          FLAGS);
  private static final Pattern AL_CODA =
      Pattern.compile("\\s*al(?:la)?\\s+(?:coda\\b|\\x{1D10C}|\\uE048).*", FLAGS);
  private static final Pattern CODA =
      Pattern.compile(
          "[\\s(\\[]*(?:(?:\\x{1D10C}|\\uE048)\\s*)?coda[\\s.:)\\]]*\\d?|\\s*(?:\\x{1D10C}|\\uE048)\\s*",
          FLAGS);
  private static final Pattern SEGNO = Pattern.compile("\\s*(?:\\x{1D10B}|\\uE047)\\s*", FLAGS);
  private static final Pattern FINE = Pattern.compile("[\\s(\\[]*fine[\\s.)\\]]*", FLAGS);
  private static final int MAX_WORDS = 400;

  private SignWords() {}

  /**
   * What is printed.
   *
   * @param words what words say
   * @param signs what drawn signs say that no word leads to
   * @param alCoda "al Coda" stands alone
   */
  record Written(Set<Navigation> words, Set<Navigation> signs, boolean alCoda) {}

  static Set<Navigation> heard(Sound s) {
    Set<Navigation> heard = EnumSet.noneOf(Navigation.class);
    add(heard, s.getDacapo() == YesNo.YES, Navigation.DA_CAPO);
    add(heard, s.getDalsegno() != null, Navigation.DAL_SEGNO);
    add(heard, s.getSegno() != null, Navigation.SEGNO);
    add(heard, s.getTocoda() != null, Navigation.TO_CODA);
    add(heard, s.getCoda() != null, Navigation.CODA);
    add(heard, s.getFine() != null, Navigation.FINE);
    return heard;
  }

  static Written written(Direction d, boolean leaves) {
    boolean segno = false;
    boolean coda = false;
    List<String> texts = new ArrayList<>();
    for (DirectionType type : d.getDirectionType()) {
      segno |= !type.getSegno().isEmpty();
      coda |= !type.getCoda().isEmpty();
      for (Object o : type.getWordsOrSymbol()) {
        if (o instanceof FormattedTextId text && text.getValue() != null) {
          texts.add(Texts.clip(text.getValue(), MAX_WORDS));
        } else if (o instanceof FormattedSymbolId symbol && symbol.getValue() != null) {
          segno |= symbol.getValue().startsWith("segno");
          coda |= symbol.getValue().startsWith("coda");
          texts.addAll(named(symbol.getValue()));
        }
      }
    }
    String joined = Texts.clip(String.join(" ", texts), MAX_WORDS).replaceAll("\\s+", " ").strip();
    // a sign drawn behind its words: "To" and the coda's sign, "D.S. al" and the sign
    String drawn = joined + (segno ? " \uD834\uDD0B" : "") + (coda ? " \uD834\uDD0C" : "");
    texts.add(joined);
    texts.add(joined.isEmpty() ? "" : drawn.strip());
    Set<Navigation> words = EnumSet.noneOf(Navigation.class);
    boolean alCoda = false;
    for (String text : texts) {
      alCoda |= AL_CODA.matcher(text).matches();
      read(text, words);
    }
    boolean back = words.contains(Navigation.DA_CAPO) || words.contains(Navigation.DAL_SEGNO);
    if (back) {
      // "D.S. to Coda" goes back; where the coda is left for stands elsewhere
      words.remove(Navigation.TO_CODA);
    }
    if (back || words.contains(Navigation.TO_CODA) || alCoda || leaves) {
      words.remove(Navigation.CODA);
    }
    boolean away = back || words.contains(Navigation.TO_CODA) || alCoda || leaves;
    Set<Navigation> signs = EnumSet.noneOf(Navigation.class);
    add(signs, segno && !away, Navigation.SEGNO);
    add(signs, coda && !away, Navigation.CODA);
    return new Written(words, signs, alCoda && !back);
  }

  /** What a glyph that stands for words says. */
  private static List<String> named(String glyph) {
    return glyph.equals("daCapo")
        ? List.of("D.C.")
        : glyph.equals("dalSegno") ? List.of("D.S.") : List.of();
  }

  private static void read(String text, Set<Navigation> words) {
    add(words, DA_CAPO.matcher(text).matches(), Navigation.DA_CAPO);
    add(words, DAL_SEGNO.matcher(text).matches(), Navigation.DAL_SEGNO);
    add(words, FINE.matcher(text).matches(), Navigation.FINE);
    add(words, TO_CODA.matcher(text).matches(), Navigation.TO_CODA);
    add(words, CODA.matcher(text).matches(), Navigation.CODA);
    add(words, SEGNO.matcher(text).matches(), Navigation.SEGNO);
  }

  private static void add(Set<Navigation> set, boolean there, Navigation sign) {
    if (there) {
      set.add(sign);
    }
  }
}
