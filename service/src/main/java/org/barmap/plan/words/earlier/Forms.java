package org.barmap.plan.words.earlier;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.regex.Pattern;

/** How people speak of what was said before. */
final class Forms {
  private static final String REF = "(?<ref>" + Reference.SAID + ")";
  private static final String WE =
      "(?:(?:let's|let us|we|we'll|we're|we are|you|you'll|i'd|i|can|could|please|just|now|also|all|want to|going to|will)\\s+)*";
  private static final String STILL =
      "(?:\\s*,?\\s+(?:again|now|any ?more|after all|please|instead|already|only|then|too|for good|out|as well|from now on))*";
  private static final String WHOLE =
      "(?:\\s*[,;.-]\\s*(?:so\\s+|and\\s+|then\\s+)*(?:we|you|it's|it is|that's)\\s+(?:now\\s+|just\\s+|all\\s+)*(?:play(?:ed|ing)?|do|doing)\\s+(?:it|the\\s+(?:whole\\s+)?(?:lot|thing)|everything|all(?:\\s+of\\s+it)?|it\\s+all|as\\s+(?:printed|written))(?:\\s+again)?)?";
  private static final String IS =
      "(?:'s|'re|\\s+(?:is|are|was|were|has\\s+been|have\\s+been|has|gets?|got))?";

  /** "Forget the cut in B", "we're not doing that vamp any more". */
  static final Pattern DROPPED =
      phrase(
          WE
              + "(?:forget(?:\\s+about)?|ignore|scratch|undo|cancel|lift|reverse|scrap|drop|lose|kill|remove|delete|take\\s+(?:out|off|back)|get\\s+rid\\s+of|rub\\s+out|erase|strike|re-?open|open(?:ing)?(?:\\s+up)?|no\\s+more|(?:not|don't|do\\s+not|stop)\\s+(?:doing|making|taking|playing|do|make|take|play))\\s+"
              + REF
              + STILL
              + WHOLE);

  /** "That cut is off", "the vamp at 25 is gone again". */
  static final Pattern GONE =
      phrase(
          REF
              + IS
              + "(?:\\s+(?:now|all|just|been))*\\s+(?:gone|off|out|cancell?ed|dead|lifted|open(?:ed)?(?:\\s+up)?|undone|scrapped|dropped|removed|taken\\s+(?:out|back)|history|no\\s+more|(?:no\\s+longer|not)(?:\\s+(?:there|on|happening|made|done|played|needed))?|goes)"
              + STILL
              + WHOLE);

  /** "Put the cut back", "the vamp is back in". */
  static final Pattern BACK =
      phrase(
          "(?:"
              + WE
              + "(?:put|putting|bring|bringing|take|taking)\\s+(?:back\\s+)?"
              + REF
              + "(?:\\s+back(?:\\s+in)?)?|"
              + WE
              + "(?:restore|reinstate|restoring)\\s+(?<ref2>"
              + Reference.SAID
              + ")|(?<ref3>"
              + Reference.SAID
              + ")"
              + IS
              + "(?:\\s+(?:goes|comes|now))*\\s+back(?:\\s+in)?)"
              + STILL);

  /** "Scratch that": what was said last. */
  static final Pattern THAT =
      phrase(
          WE
              + "(?:forget|scratch|undo|cancel|strike|scrap|take\\s+back|ignore)\\s+(?:that|it|this|what\\s+i\\s+(?:just\\s+)?said|the\\s+last\\s+(?:one|thing|change)|that\\s+last\\s+(?:one|thing))(?:\\s+(?:one|again|please|back))*");

  /** "The cut starts at C already", "that cut goes from 9 to 14". */
  static final Pattern STARTS =
      phrase(
          "(?:(?:make|have|let)\\s+)?"
              + REF
              + IS
              + "(?:\\s+(?:now|only|already|just|to))*\\s+(?:starts?|begins?|starting|beginning|runs?|goes)\\s+(?:(?:now|already|earlier|later|only|instead)[,\\s]+)*(?:at|from|with|on)\\s+(?<to>[^,.;]+?)"
              + STILL);

  /** "That cut goes further now, it runs all the way to D". */
  static final Pattern ENDS =
      phrase(
          "(?:(?:make|have|let|extend|shorten|lengthen|end|stop|take)\\s+)?"
              + REF
              + IS
              + "(?:\\s+(?:now|only|already|just))*(?:\\s+(?:goes?|runs?|ends?|stops?|extends?|extended|lasts?|continues?|finish(?:es)?|reaches|shortened|longer|shorter)|(?=\\s+(?:to|until|till|through|up\\s+to)\\s))(?:[,\\s]+(?:further|longer|shorter|on|now|only|right|all\\s+the\\s+way|straight|it|that|goes|runs|ends|up|just|and|already|a\\s+bit|back|even|instead|stops))*\\s+(?<how>to|at|until|till|with|into|through|as\\s+far\\s+as|on)\\s+(?<to>[^,.;]+?)"
              + STILL
              + "(?:\\s*[,.;-]\\s*(?:and\\s+)?(?:not|no\\s+longer|instead\\s+of)\\s+(?:to\\s+)?(?<old>[^,;]+?))?");

  /** "Make the cut two bars shorter", "that cut starts two bars later, at 9". */
  static final Pattern MOVED =
      phrase(
          "(?:(?:make|have|let|get|take|bring)\\s+)?"
              + REF
              + IS
              + "(?:\\s+(?:now|just|to\\s+be|be|only|all))*(?:\\s+(?<edge>starts?|begins?|starting|ends?|stops?|finish(?:es)?|goes|go|lands?|runs?|extends?))?(?:\\s+(?:now|on|for))*\\s+(?<many>an?|one|two|three|four|\\d{1,2})\\s+(?:more\\s+)?bars?\\s+(?<way>shorter|longer|earlier|later|sooner|further|less|more)(?:\\s+on)?"
              + "(?:\\s+(?:at|from|on)\\s+(?:the|its)\\s+(?<side>front|start|beginning|top|end|back|tail))?"
              + "(?:,?\\s+(?:and\\s+|so\\s+)?(?:that's\\s+)?(?:at|on|from|to|with)\\s+(?:bar\\s+)?(?<to>[^,.;]+?))?"
              + STILL);

  /** "The vamp is 27-28, not 25-26", "make that vamp 13 to 16". */
  static final Pattern BARS =
      phrase(
          "(?:(?:make|move|change|shift|put|have)\\s+"
              + REF
              + "|(?<ref2>"
              + Reference.SAID
              + ")(?:'s|\\s+(?:is|are|becomes?|should\\s+be|should\\s+have\\s+been|was\\s+meant\\s+to\\s+be|has\\s+to\\s+be|must\\s+be|moves?|goes|covers|means|moved)))\\s+(?:(?:now|actually|really|just|only|to|from|over|at|on|be|into|cover|bars?)\\s+)*(?<to>[^.;]+?)"
              + STILL
              + "(?:\\s*[,.;-]\\s*(?:and\\s+)?(?:not|no\\s+longer|instead\\s+of)\\s+(?<old>[^,;]+?))?");

  /** "Make that vamp four times": how often; words for it stand in {@code to} of {@link #BARS}. */
  static final Pattern TIMES =
      phrase(
          "(?:(?:only|just|exactly|played|now|in\\s+all)\\s+)*(once|twice|(?:\\d{1,2}|\\w+)\\s*(?:times|x)|\\d{1,2}x)(?:\\s+(?:only|in\\s+all|through|round|around))*");

  /** "Make that vamp a safety": what it is instead. */
  static final Pattern SORT = phrase("(?:an?\\s+)?(?<sort>vamp|safety|cut|hold)(?:\\s+(?:bars?))?");

  /** "Till she sits". */
  static final Pattern CUE = phrase("(?:until|till|'?til)\\s+(?<cue>.+)");

  /** "Instead of that cut we cut 13 to 16". */
  static final Pattern INSTEAD =
      phrase(
          "(?:instead\\s+of|in\\s+place\\s+of|rather\\s+than)\\s+"
              + REF
              + "\\s*[,:]?\\s+(?:(?:now|we|you|let's|we're|we'll|it's|please|just)\\s+)*(?<order>.+)"
              + "|(?:replace|swap)\\s+(?<ref2>"
              + Reference.SAID
              + ")\\s+(?:by|with|for)\\s+(?:an?\\s+)?(?<order2>.+)");

  static final Pattern INSTEAD_OF =
      phrase("(?<order>.+?)\\s*,?\\s+(?:instead\\s+of|in\\s+place\\s+of|rather\\s+than)\\s+" + REF);

  /** "A three times, not twice", "instead of 9 to 12 cut 13 to 16". */
  static final Pattern NOT_OLD =
      phrase(
          "(?<order>.+?)(?:\\s*[,.;-]\\s*(?:and\\s+)?(?:not|no\\s+longer)|\\s*(?:[,.;-]|\\s)\\s*(?:and\\s+)?(?<instead>instead\\s+of|rather\\s+than))\\s+(?<old>[^,;]+)");

  /** What begins with what is to be done. */
  static final Pattern ORDER =
      phrase(
          "(?:we\\s+|now\\s+|just\\s+)*(?:(?:cut|vamp|safety|hold|skip|omit|tacet)\\b.+|play\\b.+(?:once|twice|times|x))");

  static final Pattern INSTEAD_BARS =
      phrase(
          "(?:instead\\s+of|in\\s+place\\s+of|rather\\s+than)\\s+(?:(?:cutting|vamping|playing|from|bars?)\\s+)*(?<old>[^,;]+?)\\s*[,:]?\\s+(?:(?:now|we|you|let's|we're|we'll|it's|please|just)\\s+)*(?<order>(?:cut|vamp|safety|play|hold|skip|omit|insert|tacet)\\b.+)");

  /** "Last time I said cut 13-20; it's 13-28". */
  static final Pattern SAID =
      phrase(
          "(?:(?:last\\s+time|earlier|before|yesterday|this\\s+morning|just\\s+now|a\\s+moment\\s+ago|at\\s+the\\s+sitz|last\\s+night|what)[,\\s]+)?(?:i|we|you|he|she|they)\\s+(?:said|had|did|told\\s+you(?:\\s+to)?)\\s+(?<order>.+?)(?:\\s+(?:last\\s+time|yesterday|before|earlier|this\\s+morning))?\\s*[,;:.-]\\s*(?:(?:but|and|now|sorry|actually|well)[,\\s]+)*(?:it's|it\\s+is|that's|make\\s+it|make\\s+that|it\\s+should\\s+(?:be|have\\s+been)|should\\s+(?:be|have\\s+been)|i\\s+meant|it\\s+was\\s+meant\\s+to\\s+be)\\s+(?:(?:now|actually|really)\\s+)*(?<to>.+?)"
              + STILL);

  /** "Same as yesterday, but cut 20 too". */
  static final Pattern SAME =
      phrase(
          "(?:(?:it's|all|everything|we|do|play|it|the)\\s+)*same\\s+(?:(?:cuts?|form|order|thing|way)\\s+)?(?:as|like)\\s+(?:we\\s+(?:did|had)\\s+(?:it\\s+)?)?(?:before|yesterday|last\\s+(?:night|time|week)|this\\s+morning|at\\s+the\\s+sitz)\\s*[,;:-]?\\s*(?:but|except(?:\\s+that)?|only(?:\\s+that)?|and\\s+then)\\s+(?:(?:now|we|you|let's|we're|we'll|today|tonight)\\s+)*(?<order>.+)");

  private Forms() {}
}
