package org.barmap.plan.words.doubt;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What stands in a message beside what was understood of it, and could make it mean something else:
 * a condition, a guess, a word for something said before. A plan that went on regardless would
 * mislead, so all of it is asked.
 */
final class Doubts {
  /** What was said before it is not meant any more, so it is not offered. */
  static final String PUT_RIGHT =
      "What does this put right? Take the earlier change out and say the new one in full.";

  private static final Pattern GUESS =
      phrase(
          "\\b(?:might|maybe|perhaps|probably|possibly|likely\\s+to|i\\s+think|not\\s+sure|depending|depends|we'll\\s+see|either)\\b");
  private static final Pattern CONDITION =
      phrase(
          "\\b(?:if(?!\\s+(?:you\\s+(?:would|could|can|please|like|don't\\s+mind|wouldn't\\s+mind)|that's\\s+(?:all\\s+right|ok(?:ay)?|alright)|possible|we\\s+(?:can|could|may))(?:\\s+with\\s+(?:you|everyone))?\\s*(?:[,.!?]|$))|unless|in\\s+case|provided|assuming|when\\s+(?:she|he|they)(?:'s|'re|\\s+is|\\s+are)\\s+(?:late|early|not|slow|behind))\\b");

  /** Somebody wants to know; nobody has ordered anything yet. */
  private static final Pattern QUESTION =
      phrase(
          "(?:.{0,24}?:\\s*)?(?:(?:oh|so|ok(?:ay)?|and|but|wait|sorry|right|um|er|now|well|no|number|in)\\b[,.!\\s]+|(?:number|no\\.|in|for)\\s+\\w+(?:[,:]\\s*|\\s+)|(?:everyone|guys|folks|all|bass|just\\s+checking|remind\\s+me)[,:]?\\s+)*"
              + "(?:(?:(?:is|are|was|were)\\s+(?:bars?\\s+|letter\\s+)?(?:\\d+|(?-i:[A-Z]))|(?:do|did|should|have|has|had|shall(?=.*\\bstill\\b))\\s+(?:we|you|they|i|he|she|anyone|anybody|everyone)|(?:does|are|is|was|were|aren't|isn't|don't|doesn't|didn't|wasn't|shouldn't|haven't)\\s+(?:we|you|they|i|it|he|she|there|that|this|anyone|anybody|everyone|the\\s+\\w+))\\b(?!\\s+know\\s+what\\s*,)|(?:which|what|where|why|how|who|whose)\\b(?!\\s+(?:i|we)(?:'d|\\s+would|'ll|\\s+will|'re|\\s+are)?\\s+(?:need|want|like|do|doing|going)\\b)(?=.*\\?)).*");

  /** Begins by going back on what was said before; nothing here knows what that was. */
  private static final Pattern BACK_ON =
      phrase(
          "(?:.{0,24}?:\\s*)?(?:(?:oh|no|wait|um|er|ah|ok(?:ay)?)[,.!\\s]+)*(?:sorry(?![,\\s]+(?:everyone|everybody|all|guys|folks|lads|chaps|team|people|band)\\b)|actually|i\\s+meant?|scratch\\s+that|make\\s+that|correction|rather|instead|not\\s+that|no,|on\\s+second\\s+thou?ghts?)\\b.*");

  /** Goes back on something in the same breath, and not on a bar that stands there. */
  private static final Pattern NO_SORRY =
      phrase(
          ".+[,.;:!?-]\\s+(?:(?:no|wait|oh)[,.!\\s]+)*(?:sorry(?!\\s+(?:everyone|everybody|all|guys|folks|lads|chaps|team|people|band)\\b)|oops|i\\s+meant?|scratch\\s+that|correction|on\\s+second\\s+thou?ghts?|no\\s*,)(?=[\\s,.!:-]).*");

  /** How often, or in which time through. */
  private static final Pattern HOW_OFTEN =
      phrase(
          "\\b(?:twice|thrice|(?:two|three|four|five|six|\\d)\\s+(?:more\\s+)?(?:times|x)|(?:first|second|third|1st|2nd|3rd)\\s+(?:time|pass|x)|\\d\\s?x)\\b");

  /** The coda is taken at once: nobody counts how often. */
  private static final Pattern CODA_FIRST =
      phrase(
          "(?=.*\\bcoda\\b)(?=.*\\bfirst\\s+time\\b)(?!.*\\b(?:twice|times|second|third|2nd|3rd)\\b).*");

  /** All but something: what is left is easily taken for what is meant. */
  private static final Pattern ALL_BUT =
      phrase(
          "\\b(?:all|everything|everywhere|every\\s+\\w+|the\\s+whole(?:\\s+\\w+)?)\\b.*\\b(?:but|except|minus|apart\\s+from|save)\\s+(?!(?:the\\s+)?(?:bass|you)\\b).*");

  /** It is the others who are silent. */
  private static final Pattern BUT_YOU =
      phrase(
          "\\b(?:all|everyone|everybody|tutti|the\\s+(?:band|orchestra|rest|others))\\b.*\\b(?:but|except|except\\s+for|apart\\s+from)\\s+(?:the\\s+)?(?:bass(?:es)?|you)\\b");

  /** Something comes at another place than it stands. */
  private static final Pattern MOVES =
      phrase(
          "\\b(?:comes?|goes|moves?|moving|moved)\\s+(?:now\\s+)?(?:straight\\s+|right\\s+|directly\\s+)?(?:before|after|behind|between|ahead\\s+of|first|last)\\b");

  /** The bar with the mark, or all that the mark stands over. */
  private static final Pattern AFTER_MARK =
      phrase("\\bafter\\s+(?:letter\\s+)?(?-i:[A-Z]{1,2})(?=[\\s,.;!]|$)");

  /** Near a figure, and not the figure. */
  private static final Pattern NEAR =
      phrase(
          "\\b(?:(?:under|below|above|over|short\\s+of|shy\\s+of|less\\s+than|more\\s+than)\\s+(?:\\d{2,3}|a\\s+hundred)|clicks?\\s+(?:slower|faster|up|down|under|over))\\b");

  /** Two bars made one, or one made two. */
  private static final Pattern MERGED =
      phrase(
          "\\b(?:becomes?|merged?|joined?|combined?|turns?\\s+into|into)\\s+(?:just\\s+)?(?:one|two|three|four|a\\s+single|\\d)\\s+(?:bars?|measures?)\\b");

  /** When one plays again. */
  private static final Pattern BACK = phrase("\\bback\\s+(?:in\\s+)?(?:in|on|at|from|for|with)\\b");

  /** One or the other. */
  private static final Pattern OR =
      phrase(
          "\\b(?:\\w+)\\s+or\\s+(?:(?:letter|bar|maybe|from|to|at|in)\\s+)?(?:\\d\\w*|(?-i:[A-Z])|one|two|three|four|five|six|seven|eight|twice|not|vamp|cut|tacet|hold|arco|pizz)\\b");

  /** "The vamp is 3 to 6 now": the printed one moves, or there are two. */
  private static final Pattern VAMP_IS = phrase("\\bvamp(?:'s|\\s+is|\\s+becomes|\\s+moves)\\b");

  /** "The cut starts at C already", "the insert is two bars longer". */
  private static final Pattern THAT_CHANGE =
      phrase(
          "\\b(?:the|that|our|this)\\s+(?:cut|insert|jump|tacet|hold|fermata)\\s+(?:(?:in|at|from|of|before|after)\\s+\\S+(?:\\s+\\S+)?\\s+)?(?:now\\s+|already\\s+)?(?:starts?|begins?|ends?|moves?|goes|comes|stops?|runs?|is\\s+(?:now|only|already|longer|shorter|one|two|\\d)|gets)\\b");

  /** Points at something that isn't named beside it. */
  private static final Pattern POINTS =
      phrase(
          "\\b(?:instead\\s+of\\s+(?:that|this|it)\\b|undo\\s+(?:that|it)\\b|every\\s+(?:second|other|third|2nd|3rd)\\b|(?:and|then)\\s+again\\s+(?:at|in|from|on|after|before)|both\\s+times|each\\s+time|every\\s+time|that\\s+one|the\\s+same(?:\\s+(?:again|thing|goes|with|for|in|at|there))?|same\\s+(?:again|thing|goes|with|for|in|at|there)|the\\s+other(?:\\s+(?:one|cut|vamp|repeat|ending|number))?|likewise|ditto|as\\s+(?:before|last\\s+(?:night|time)|we\\s+(?:did|do|said|discussed|agreed))|like\\s+(?:before|last\\s+(?:night|time)|we\\s+(?:did|said))|you\\s+know\\s+(?:the\\s+one|which|where|what(?!\\s*,)))\\b");

  /** Bars, marks and numbers one behind the other. */
  private static final Pattern LIST =
      phrase(
          "\\b\\w{1,3},?\\s+(?:and\\s+)?then\\s+(?:no\\.?\\s*)?\\d\\w{0,2},?\\s+(?:and\\s+)?then\\s+(?:no\\.?\\s*)?\\d\\w{0,2}\\b.*");

  /** It holds on a day, or until one, that nobody knows the date of. */
  private static final Pattern DAY =
      phrase(
          "\\b(?:(?:just|only)\\s+(?:for\\s+)?(?:tonight|today|tomorrow)|(?:tonight|today|tomorrow|this\\s+(?:evening|performance|show))(?:'s\\s+(?:show|performance))?\\s+only|(?:until|till|from|starting)\\s+(?:next\\s+|this\\s+)?(?:tomorrow|(?:mon|tues|wednes|thurs|fri|satur|sun)day))\\b");

  private Doubts() {}

  /** What was made of a message. */
  interface Made {
    /** Whether something in it is done on a condition, or till a cue. */
    boolean waits();

    /** Whether something is put back as it is printed. */
    boolean restores();

    /** Whether the order of the numbers is said. */
    boolean orders();

    /** Whether bars are cut. */
    boolean cuts();

    /** Whether everything that was made holds on some days only. */
    boolean dated();

    /** Whether one bar is held, and of another one it is said that it isn't. */
    boolean movesHold();

    /** Whether bars are cut, and then something is to be done in the same bars. */
    boolean cutsAndPlays();

    /** Whether nothing but a vamp is made where another is printed. */
    boolean vampsTwice();

    /** Whether something is done so often, or in one time through only. */
    boolean counts();

    /** Whether nothing but bars come of it in which this player is silent, in several places. */
    boolean silences();

    /** Whether this player is silent somewhere. */
    boolean rests();

    /** Whether a bar is cut twice. */
    boolean cutsTwice();

    /** Whether several things change. */
    boolean several();

    /** Whether a tempo is set. */
    boolean tempos();

    /** Whether bars come in that are not printed. */
    boolean adds();

    /** Whether nothing but notes came of it. */
    boolean notes();
  }

  /**
   * Returns what has to be asked about a message.
   *
   * @param said all of it, after what is corrected in the same breath
   * @param made what it was taken for
   */
  static Optional<String> about(String said, Made made) {
    String text = said.replaceAll("[.!?\\s]+$", "");
    if (LIST.matcher(text).find() && !made.orders()) {
      return Optional.of("Is this the order of bars, or of numbers? Say it one by one.");
    }
    if (made.notes() && MOVES.matcher(text).find()) {
      return Optional.of("Does this change the order? Say what comes after what, by its number.");
    }
    if (made.notes()) {
      return Optional.empty();
    }
    if (QUESTION.matcher(said.strip()).matches()) {
      return Optional.of("Is this a question, or is it played like this from now on?");
    }
    Optional<String> turned = Turned.about(said, made);
    if (turned.isPresent()) {
      return turned;
    }
    if (DAY.matcher(text).find() && !made.dated()) {
      return Optional.of(
          "Which day is that? Say the last day it holds, as in \"until 24 December 2026\".");
    }
    if (GUESS.matcher(text).find()) {
      return Optional.of("Is this certain? Say it as it is played, or keep it as a note.");
    }
    if (CONDITION.matcher(text).find() && !made.waits()) {
      return Optional.of(
          "This hangs on something that is known only on the night. Is it a safety, a vamp till a"
              + " cue, or played like this every time?");
    }
    boolean back =
        BACK_ON.matcher(text).matches()
            || NO_SORRY.matcher(text).matches()
            || THAT_CHANGE.matcher(text).find();
    if (back && !made.restores()) {
      return Optional.of(PUT_RIGHT);
    }
    Matcher points = POINTS.matcher(text);
    return points.find()
        ? Optional.of("What is meant by \"" + points.group() + "\"? Name the bars or the times.")
        : twofold(text, made);
  }

  /** What is said plainly, but played one way here and another way there. */
  private static Optional<String> twofold(String text, Made made) {
    if (OR.matcher(text).find()) {
      return Optional.of("Which of the two?");
    }
    boolean coda = made.cuts() && CODA_FIRST.matcher(text).matches();
    if (!made.counts() && !coda && HOW_OFTEN.matcher(text).find()) {
      return Optional.of("How often is it played, or in which time through? Say it in full.");
    }
    if (made.several() && ALL_BUT.matcher(text).find()) {
      return Optional.of("What is left as it is? Say the bars that change.");
    }
    if (made.cutsTwice()) {
      return Optional.of("Which bars are out? The same bars came out twice of what was said.");
    }
    if (BUT_YOU.matcher(text).find()) {
      return Optional.of("Do you play there, and the others don't?");
    }
    if (made.tempos() && NEAR.matcher(text).find()) {
      return Optional.of("At which figure?");
    }
    if (MERGED.matcher(text).find()) {
      return Optional.of("How many bars are there then, and which of the printed ones are out?");
    }
    if (made.silences() && BACK.matcher(text).find()) {
      return Optional.of("From which bar to which are you out, and where are you in again?");
    }
    if (made.movesHold()) {
      return Optional.of("Is the other bar only not meant, or is a hold printed there left out?");
    }
    if (made.cutsAndPlays()) {
      return Optional.of("Are these bars out, or are they played in that way?");
    }
    if (made.vampsTwice() && VAMP_IS.matcher(text).find()) {
      return Optional.of("Is this in place of the printed vamp, or besides it?");
    }
    return made.adds() && AFTER_MARK.matcher(text).find()
        ? Optional.of("After the bar with the mark, or after all that the mark stands over?")
        : Optional.empty();
  }
}
