package org.barmap.plan.change.term;

import java.text.Normalizer;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * The tempo words of Italian, English, German and French as parts use them (common practice; from
 * memory, no dictionary was copied). Patterns are matched against folded text, see {@link #fold}.
 */
final class TempoVocabulary {
  private TempoVocabulary() {}

  /** Figures of speech that speak of eighths or of a pattern and leave the pulse as it is. */
  static final Pattern PATTERN_ONLY =
      Pattern.compile(
          "\\b(?:(?:double|half|cut)[ -]?time[ -](?:feel|groove|shuffle)"
              + "|(?:swing|swung|straight|even|lazy|hard|triplet|shuffle)(?:ed|ing)?"
              + "[ -](?:8ths?|eighths?|quavers?|16ths?|sixteenths?|semiquavers?)"
              + "|[\\p{L}&'-]+ feel)\\b");

  /** What someone says on stage: behind a name, in quotes, or a question. */
  static final Pattern SPOKEN =
      Pattern.compile(
          "(?m)^\\s*\\(?(?!tempo\\b)[\\p{L}][\\p{L} .&'-]*:\\s.*$|[\"\u201C][^\"\u201D\\n]*[\"\u201D]"
              + "|(?m)^.*\\?\\)?\\s*$");

  /** Two eighths that are played as something else: how they swing. */
  static final Pattern SWUNG = Pattern.compile("\\(?\\s*\\u266B[^\\n)]*\\)?");

  /** Twice as fast. */
  static final Pattern TWICE =
      any(
          "double[ -]?time|doppio (?:movimento|tempo|piu (?:mosso|vivo|presto))|doppio"
              + "|(?:twice|two times|2x) (?:as|the) (?:fast|quick|tempo|speed)"
              + "|(?:doppelt|noch ?(?:ein)?mal) so (?:schnell|rasch)|doppeltes (?:tempo|zeitmass)"
              + "|(?:le |au )?double plus vite|deux fois plus vite|au double");

  /** Half as fast. */
  static final Pattern HALF =
      any(
          "half[ -]time|doppio piu lento|(?:la )?meta (?:del )?(?:tempo|movimento)"
              + "|meno mosso della meta|half as (?:fast|quick)|(?:twice|half) as slow"
              + "|half (?:the )?(?:tempo|speed)|halb so schnell|(?:doppelt|noch ?mal) so langsam"
              + "|halbes (?:tempo|zeitmass)|deux fois (?:moins vite|plus lent)"
              + "|le double plus lent|de moitie");

  /** Back to the first tempo of the number. */
  static final Pattern FIRST =
      any(
          "tempo (?:primo|i|1(?:mo|er|st|o)?|uno|as at (?:first|the (?:beginning|start|top)))"
              + "|(?:1st|first|original|opening|primo|1o) tempo"
              + "|(?:tempo|zeitmass) (?:i|1)|(?:erstes|ursprungliches) (?:tempo|zeitmass)"
              + "|hauptzeitmass|(?:tempo )?wie (?:am|zu) (?:anfang|beginn)"
              + "|(?:1er|premier) (?:mouvement|mouvt|tempo)|tempo du debut|come prima");

  /** Back to the tempo before. */
  static final Pattern BACK =
      any(
          "a tempo|in tempo|al tempo|im (?:tempo|zeitmass)|au (?:mouvement|mouvt)|resume tempo"
              + "|tempo (?:as )?before|tempo wie (?:vorher|zuvor)|wieder im tempo|strict tempo");

  /** "Tempo" alone stands behind free bars and means in time again. */
  static final Pattern BACK_ALONE =
      Pattern.compile("\\(?(?:tempo|zeitmass|mouvement|mouvt|in time|wie vorher|wie zuvor)[.!)]*");

  /** The same tempo as before. */
  static final Pattern SAME =
      any(
          "(?:l'? ?|lo )?i?stesso (?:tempo|movimento)|l'? ?istesso|same (?:tempo|speed|pulse)"
              + "|(?:das)?selbe (?:tempo|zeitmass)|(?:das )?gleiche[ns]? (?:tempo|zeitmass)"
              + "|meme (?:mouvement|mouvt|tempo)|le meme mouvement|tempo stays|keep (?:the )?tempo");

  /** Slower by and by. */
  static final Pattern SLOWING =
      any(
          "rit(?:ard(?:ando)?|en(?:uto)?)?|rall(?:ent(?:ando)?)?|allarg(?:ando)?|slarg(?:ando)?"
              + "|slent(?:ando)?|calando|morendo|smorz(?:ando)?|mancando|trattenuto"
              + "|slow(?:ing)? down|slowing|(?:hold|held|pull|pulling|holding) back|broadening|broaden"
              + "|zuruckhalten[d]?|zuruckgehalten|nachlassen[d]?|verbreitern[d]?|langsamer werden[d]?"
              + "|cedez|cedant|ralenti(?:r|ssez|ssant)?|retenu|retenez|elargi(?:r|ssez|ssant)?");

  /** Faster by and by. */
  static final Pattern QUICKENING =
      any(
          "accel(?:erando)?|string(?:endo)?|affrett(?:ando)?|stretto|incalzando|precipitando"
              + "|(?:speed|speeding) up|(?:press|push|pressing|pushing|driving|drive) (?:on|ahead|forward)"
              + "|beschleunig(?:en|end|t)|drangend|schneller werden[d]?|eilen[d]?|treibend"
              + "|accelerez|accelerant|pressez|pressant|serrez|en serrant|animez|en animant");

  /** By and by, said of a comparative. */
  static final Pattern GRADUALLY =
      any(
          "poco a poco|gradually|getting|growing|little by little|bit by bit|sempre piu"
              + "|allmahlich|nach und nach|immer|peu a peu|de plus en plus");

  /** Out of time; in time again it is the tempo before. */
  static final Pattern FREE =
      any(
          "rubato|freely|free time|out of time|colla (?:voce|parte)|col canto|senza (?:misura|tempo)"
              + "|recit(?:ativ(?:o|e)?)?|a piacere|liberamente|ad libitum|cadenza"
              + "|with (?:the )?(?:voice|singer|vocal)|follow (?:the )?(?:voice|singer|vocal)"
              + "|freies (?:tempo|zeitmass)|frei im (?:tempo|zeitmass)|librement|a volonte"
              + "|sans mesure|suivez");

  /** Alone it means out of time; in a sentence it may be about the notes. */
  static final Pattern FREE_ALONE = Pattern.compile("\\(?(?:ad lib|free|frei)[.)]*");

  /** Slower or faster than before, nobody knows by how much. */
  static final Pattern SLOWER =
      any(
          "slower|broader|meno(?: (?:mosso|vivo|allegro|presto|moto))?"
              + "|piu (?:lento|largo|sostenuto|tranquillo|adagio|calmo|maestoso)"
              + "|langsamer|breiter|ruhiger|gehaltener|plus (?:lent|large|calme)(?:ement)?|moins vite"
              + "|less (?:fast|motion|movement)");

  static final Pattern FASTER =
      any(
          "faster|quicker|brighter|livelier|piu (?:mosso|vivo|vivace|allegro|animato|presto|moto"
              + "|agitato|stretto)|poco piu|un po(?:co|')? piu|mosso|schneller|rascher|bewegter"
              + "|lebhafter|fliessender|plus (?:vite|vif|anime|rapide)(?:ment)?|moins lent"
              + "|(?:more|with) (?:motion|movement)|moving (?:along|on|ahead)|move along");

  /** "meno f" and "più p" are about loudness. */
  static final Pattern LOUDNESS =
      any("(?:poco )?(?:meno|piu) (?:[mfp]+|forte|piano|cresc(?:endo)?|dim(?:inuendo)?)");

  /** Tempo words that say which way it goes where it goes there by and by. */
  static final Pattern SLOW =
      any("lento|largo|adagio|tranquillo|slow(?:ly)?|broad(?:ly)?|langsam|breit|ruhig|lent|calme");

  static final Pattern FAST =
      any(
          "animato|agitato|allegro|viv(?:o|ace)|presto|fast|quick|bright|lively|schnell|rasch"
              + "|lebhaft|bewegt|vif|vite|anime");

  /** Words that name a tempo without a figure wherever they stand. */
  static final Pattern NAMED =
      any(
          // Italian
          "grave|larg(?:o|hetto|hissimo)|lent(?:o|amente)|adag(?:io|ietto|issimo)"
              + "|andant(?:e|ino)|moderato|allegr(?:o|etto|issimo)|viv(?:o|ace|acissimo|amente)"
              + "|prest(?:o|issimo)|maestoso|animato|agitato|tranquillo|pesante|misterioso|con moto"
              + "|(?:tempo|movimento) d[ei'](?!\\s*(?:primo|prima))|tempo (?:giusto|ordinario|comodo)"
              + "|alla (?:marcia|turca|polacca|siciliana|zingarese|tedesca)"
              // English
              + "|slow(?:ly|ish)?|fast(?:ish)?|quick(?:ly)?|bright(?:ly)?|brisk(?:ly)?|lively"
              + "|moderate(?:ly)?|broad(?:ly)?|ballad|up[ -]?tempo|steady|steadily|stately"
              + "|majestic(?:ally)?|driving|hurried(?:ly)?|briskly"
              // German
              + "|langsam|schnell|rasch|bewegt|breit|massig(?:es|e)?|lebhaft|ruhig|gehend|feierlich"
              + "|schleppend|zugig|fliessend|gemachlich|gemessen|getragen|(?:marsch|walzer)tempo"
              // French
              + "|lentement|vivement|modere|moderement|anime|rapidement|largement|gaiement"
              + "|(?:mouvement|mouvt|tempo) de");

  /** Words that name a tempo where they are the heading of what follows: dances and characters. */
  static final Pattern HEADING =
      any(
          "waltz|valse|walzer|vals|march|marche|marcia|marsch|polka|tango|fox[ -]?trot|rh?umba|samba"
              + "|bossa(?: nova)?|mambo|cha[ -]?cha(?:[ -]?cha)?|beguine|bolero|habanera|charleston"
              + "|(?:one|two|quick)[ -]?step|cakewalk|ragtime|rag|stomp|shuffle|swing|blues|boogie"
              + "(?:[ -]woogie)?|rock(?: ?(?:'n'?|and|&|n) ?roll)?|disco|funk|funky|gospel|soul"
              + "|latin|reggae|ska|calypso|jig|gigue|giga|reel|hornpipe|gallop|galopp?|can-?can"
              + "|minuet(?:to)?|menuet(?:to|t)?|gavotte|mazurka|polonaise|sarabande|siciliano"
              + "|tarantella|barcarol(?:a|e|le)|lullaby|berceuse|hymn|chorale?|fanfare|soft[ -]shoe"
              + "|vaudeville|burlesque|hoe-?down|hora|paso doble|flamenco|country|hip[ -]?hop|pop"
              + "|jazz|dixieland|stride|strut|schottische|landler|cs?zardas|motown|salsa|doo[ -]?wop"
              + "|merengue|cumbia|cancan|pasodoble|montuno|afro(?:[ -]cuban)?|groove|vamp tempo"
              + "|easy|relaxed|laid[ -]back|medium|med|flowing|gently|gentle|spirited|energetic(?:ally)?"
              + "|with (?:spirit|energy|drive|vigou?r)|agitated|excited(?:ly)?|furious(?:ly)?"
              + "|frantic(?:ally)?|lazy|lazily|tenderly|dreamy|dreamily|solemn(?:ly)?|grand(?:ly)?"
              + "|sostenuto|scherzando|giocoso|grazioso|con (?:brio|fuoco|spirito|anima)|deciso"
              + "|furioso|lugubre|funebre|calmo|vif|vive|vite|lent|large|gai|calme|rapide|frisch"
              + "|flott|munter|triste|eerie|eerily|mysterious(?:ly)?");

  /** What makes a short text a cue or an instruction, not a heading. */
  static final Pattern NO_HEADING =
      any(
          "cue|till|until|on|exits?|enters?|when|after|before|vamp|safety|only|x|times?|solo|bass"
              + "|drums?|pno|piano|gtr|guitar|organ|perc|brass|reeds?|strings?|tacet|play|dialogue"
              + "|scene|starts?|ends?|segue|attacca|lights?");

  /** "light" heads bars, "lights" are a cue. */
  static final Pattern LIGHT = any("light (?:swing|rock|march|waltz|two|four|latin|bounce)");

  /** Returns words in lower case, without accents, "ss" for a sharp s. */
  static String fold(String words) {
    return Normalizer.normalize(words, Normalizer.Form.NFD)
        .replaceAll("\\p{M}", "")
        .toLowerCase(Locale.ROOT)
        .replace("\u00DF", "ss")
        .replace('\u2019', '\'')
        .replace('\u00B0', 'o')
        .replace('\u00BA', 'o')
        .replace('\u00A0', ' ')
        .replaceAll("[ \\t]+", " ");
  }

  private static Pattern any(String words) {
    return Pattern.compile("(?<![\\p{L}\\p{N}])(?:" + words + ")(?![\\p{L}\\p{N}])");
  }
}
