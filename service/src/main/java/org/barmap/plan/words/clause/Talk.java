package org.barmap.plan.words.clause;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.regex.Pattern;

/**
 * A clause that orders nothing: why it is so, what the others do, how it simply goes on. It is
 * known by its form, a subject and what is said of it, and by having no word in it that an order is
 * made of; a loose word that nobody knows is no such clause.
 */
final class Talk {

  /** Who or what is spoken of: not the player, and nothing of the form. */
  private static final Pattern SUBJECT =
      phrase(
          "(?:(?:and|but|so|because|since|as|then|well|sorry|you\\s+see|now|even\\s+if|which|where)[,\\s]+)*"
              + "(?:she|he|they|it|that|this|there|who|which|someone|somebody|nobody|everybody|everyone|people|i|we"
              + "|(?:the|my|his|her|their|our|those|these|all\\s+the|some\\s+of\\s+the)\\s+\\p{L}+(?:\\s+\\p{L}+)?|let\\s+(?:the|him|her|them)|(?-i:\\p{Lu}\\p{Ll}+)|\\w+ing)"
              + "(?:'(?:s|re|ve|ll|d|m)|n't)?\\s+\\S.*");

  private static final Pattern STAGE =
      phrase(
          "(?:(?:and|but|so|because|since|as)[,\\s]+)*(?:the|her|his|their)\\s+(?!(?:tempo|music|number|song|tune|vamp|intro\\w*|opening|ending|verse|chorus|bridge|section|melody|bass|band|beat|dance|waltz|repeat|coda|line|bar|solo|playoff|tag)\\b)\\p{L}+(?:\\s+\\p{L}+)?(?:'s|'re|\\s+(?:is|are|was|gets))\\s+(?:(?:just|so|very|really|too|a\\s+bit|rather|quite|always)\\s+)*\\p{L}+");

  /** Says that the order is none, or not yet, or not always, or that something is like it. */
  private static final Pattern TURNS =
      phrase(
          ".*\\b(?:wrong|mistakes?|jok(?:e|es|ing)|kidding|nonsense|rubbish|confirm\\w*|t\\.?b\\.?[cda]\\b|not\\s+sure|don't\\s+know|do\\s+not\\s+know|decid\\w+|tomorrow|yesterday|last\\s+(?:night|time|week)|tonight|today|matin[e\\u00E9]es?|evenings?|understudy|swings?|previews?|version|later|maybe|perhaps|might|may|probably|possibly|trial|trying|option\\w*|either|or|unless|except|other|others|another|instead|same|also|too|as\\s+well|likewise|before|previous\\w*|old|new|first|second|third|last|final|both|each|every|half|rest|bars?|beats?|counts?|longer|shorter|times?|twice|once|fast\\w*|quick\\w*|tempo|key|meter|score|part|misprint\\w*|typo\\w*|errors?)\\b.*");

  /** "Three's just too busy": the beat that was shown till now. */
  private static final Pattern BUSY =
      phrase(
          "(?:(?:and|but|because|since|as)[,\\s]+)*(?:in\\s+)?(?:one|two|three|four|six|\\d{1,2})(?:'s|\\s+is|\\s+was|\\s+gets|\\s+feels)\\s+(?:(?:just|only|really|far|way|a\\s+bit|much|always|simply)\\s+)*(?:too|never|not)\\s+\\p{L}+(?:\\s+\\p{L}+)?");

  /** "It's too slow", "it was dragging": why there is another tempo. */
  private static final Pattern PACE =
      phrase(
          "(?:(?:and|but|because|since|as|it|that|this|we|they)[,\\s]+)*(?:is|are|was|were|has\\s+been|have\\s+been|keeps?)\\s+(?:(?:just|a\\s+bit|far|way|much|really|still|always|getting)\\s+)*(?:too\\s+(?:slow|fast|quick|sluggish|heavy|hurried)|dragging|rushing|sluggish|running\\s+away)(?:\\s+(?:last\\s+night|yesterday|at\\s+the\\s+moment))?");

  /** Wishes and needs may have an "only" and a half in them: "we only need half of it". */
  private static final Pattern NEEDS =
      phrase(
          "(?:(?:and|but|so|because|since|as)[,\\s]+)*(?:i|we|they|she|he)(?:'(?:ll|d)|\\s+(?:will|would))?\\s+(?:only|just|really)?\\s*(?:want|need|like|love|hate)s?\\b.*");

  private static final Pattern STAYS =
      phrase(
          "(?:(?:and|then|but|you|just|will)[,\\s]+)*(?:stay(?:ing)?|keep(?:ing)?|remain|hold)\\s+(?:on|with|in|like|to)?\\s*(?:it|that|there|this)(?:\\s+(?:till|until|to|right\\s+to|through\\s+to)\\s+the\\s+end|\\s+from\\s+there(?:\\s+on)?|\\s+throughout|\\s+on)*[.!,\\s]*");
  private static final Pattern GOES_ON =
      phrase(
          "(?:(?:and|then|but|so|we|you|i|it|that|just|simply|otherwise|after\\s+that|from\\s+there|will|are|is|would|everyone|off|if\\s+not|all)[,\\s]+)*"
              + "(?:carry(?:ing)?\\s+on|go(?:ing)?\\s+(?:straight\\s+|right\\s+)?on|continue|keep\\s+(?:on\\s+)?going|mov(?:e|ing)\\s+on|play(?:ing)?\\s+on|on(?:\\s+(?:we|you|it)\\s+go(?:es)?)?|straight\\s+on|on\\s+from\\s+there)"
              + "(?:\\s+(?:as\\s+(?:normal|usual|printed|written|before)|from\\s+there|normally|again|as\\s+you\\s+(?:are|were)|to\\s+the\\s+end))*[.!,\\s]*");

  /** How the director shows what was ordered. */
  private static final Pattern SHOWS =
      phrase(
          "(?:(?:and|so|but|then|just)[,\\s]+)*(?:(?:i|he|she)(?:'ll|\\s+will|'m\\s+going\\s+to|\\s+am\\s+going\\s+to)\\s+(?:just\\s+|always\\s+)?(?:cue|bring|give|show|wave|nod|tell|point|signal|warn|conduct|shout|call|catch|look|let\\s+you\\s+know|be\\s+looking|take)\\b.*"
              + "|(?:you(?:'ll|\\s+will)\\s+(?:get|have|see)\\s+(?:a|my|the)\\s+(?:cue|nod|sign|signal|wave|look)\\b.*)"
              + "|(?:just\\s+)?(?:watch|look\\s+at|look\\s+up\\s+at|keep\\s+an\\s+eye\\s+on|follow|wait\\s+for)\\s+(?:me|us|my\\s+(?:hand|stick|cue|nod|left\\s+hand))(?:\\s+(?:there|for\\s+(?:it|that|the\\s+cue)|carefully|please))*)[.!,\\s]*");

  /** When it is, in the words of the stage: nobody counts by it. */
  private static final Pattern CONTEXT =
      phrase(
          "(?:(?:and|so|then|right|now)[,\\s]+)*(?:after|during|before|under|underneath|with|on|at|following|when\\s+we\\s+do|for)\\s+(?:the|her|his|their|that|this|my|your)\\s+(?!(?:vamp|repeat|safety|cut|coda|sign|segno|end|top|beginning|start|intro\\w*|opening|applause|clapping|first|second|last|rest|fermata|hold|double|key|meter|pick-?up\\w*|rit|section|bar|break)\\b)\\p{L}+(?:\\s+\\p{L}+){0,3}");

  /** "We've lost the boat move": something of the stage, and nothing of the music. */
  private static final Pattern LOST =
      phrase(
          "(?:(?:and|but|so|because|since|as)[,\\s]+)*(?:we|they|she|he)(?:'ve|'s|\\s+have|\\s+has)?\\s+(?:now\\s+|just\\s+|also\\s+)*(?:lost|dropped|cut|scrapped|added|lose|skip|binned)\\s+(?:the|her|his|their|a|that)\\s+(?!(?:\\w+\\s+)?(?:intro\\w*|opening|ending|tag|verse|chorus|bridge|vamp|repeat|cut|coda|section|dance|break|number|song|tune|solo|music|bars?|playoff|button|interlude|underscore|scene\\s+change|reprise)\\b)\\p{L}+(?:\\s+\\p{L}+){0,2}");

  private Talk() {}

  /** Whether a clause only says when it is, on the stage. */
  static boolean context(List<Token> tokens) {
    return CONTEXT.matcher(Clause.said(tokens)).matches()
        && tokens.stream()
            .noneMatch(t -> t.is(Token.Kind.PLACE) || t.is(Token.Kind.DO) || counted(t));
  }

  /** Whether a clause only says that it goes on as it stands. */
  static boolean goesOn(List<Token> tokens) {
    String said = Clause.said(tokens);
    return !tokens.isEmpty() && (GOES_ON.matcher(said).matches() || STAYS.matcher(said).matches());
  }

  /** Whether a clause says how something is shown that was ordered beside it. */
  static boolean shows(List<Token> tokens) {
    String said = Clause.said(tokens);
    return SHOWS.matcher(said).matches()
        && tokens.stream().noneMatch(t -> t.is(Token.Kind.PLACE) || counted(t));
  }

  /** Whether a clause says why, or what others do, and orders nothing. */
  static boolean reason(List<Token> tokens) {
    String said = Clause.said(tokens);
    boolean needs = NEEDS.matcher(said).matches();
    if (PACE.matcher(said).matches()) {
      return true;
    }
    if (LOST.matcher(said).matches() || BUSY.matcher(said).matches()) {
      return tokens.stream().skip(1).noneMatch(t -> t.is(Token.Kind.PLACE) || counted(t));
    }
    return SUBJECT.matcher(said).matches()
        && !(TURNS.matcher(needs ? said.replaceFirst("(?i)\\bhalf\\b", "") : said).matches())
        && (said.matches(
                "(?i)(?:(?:and|but|so|because|since|as|sorry)[,\\s]+)*(?:she|he|they)\\b.*")
            || tokens.stream()
                .anyMatch(
                    t -> t.is(Token.Kind.WORD) || t.is(Token.Kind.THEY) || t.is(Token.Kind.STYLE)))
        && tokens.stream().allMatch(t -> harmless(t, needs, tokens));
  }

  private static boolean harmless(Token t, boolean needs, List<Token> all) {
    return switch (t.kind()) {
      case WORD, STYLE, THEY, REASON, NOT, FILL, PREP, AND, COMMA, WE, THERE -> true;
      case CUE -> !t.text().matches("(?i)'?til|till|until");
      case DO -> stage(t, all);
      case SOFT ->
          !t.value().equals("insert")
              || t.text().matches("(?i)(?:have|there is|there are|need|needs|leave|put)");
      case ONLY -> needs || all.stream().anyMatch(o -> o.is(Token.Kind.THEY));
      case YOU -> false;
      default -> false;
    };
  }

  /** "The truck's slow": something of the stage is, and not the music. */
  private static boolean stage(Token t, List<Token> all) {
    String said = Clause.said(all);
    return t.text()
            .matches("(?i)slow|slower|dead|late|early|quick|free|missing|quiet|silent|faster|held")
        && STAGE.matcher(said).matches();
  }

  private static boolean counted(Token t) {
    return switch (t.kind()) {
      case TIMES, BARS, PASS, METER, BEATS, FIGURE, KEY, INSTRUMENT, INTERVAL -> true;
      default -> false;
    };
  }
}
