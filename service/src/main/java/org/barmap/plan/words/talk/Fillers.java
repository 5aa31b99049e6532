package org.barmap.plan.words.talk;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.regex.Pattern;

/** Leaves off what people say around an order in a rehearsal, and that changes nothing. */
public final class Fillers {

  /** To whom it is said. */
  private static final List<String> PEOPLE =
      List.of(
          "everyone",
          "everybody",
          "all",
          "guys",
          "folks",
          "lads",
          "chaps",
          "friends",
          "people",
          "team",
          "gang",
          "band",
          "pit",
          "ladies\\s+and\\s+gentlemen",
          "my\\s+friends",
          "all\\s+of\\s+you");

  /** Said first, and only to be heard; some of them only before a comma. */
  private static final List<String> FIRST =
      List.of(
          "ok(?:ay)?",
          "so",
          "um+",
          "uh+",
          "er+m?",
          "ah",
          "oh",
          "and",
          "but",
          "please",
          "do\\s+you\\s+know\\s+what(?=,)",
          "you\\s+know\\s+what(?=,)",
          "(?:i'll\\s+)?tell\\s+you\\s+what",
          "i\\s+think\\s+we\\s+agreed",
          "just\\s+so\\s+you\\s+know",
          "before\\s+i\\s+forget",
          "same\\s+number(?=,)",
          "while\\s+i\\s+think\\s+of\\s+it",
          "sorry(?=[,\\s]+(?:everyone|everybody|all|guys|folks|lads|chaps|team|people|band)\\b)",
          "(?:right(?:\\s+then)?|now(?:\\s+then)?|well|yes|yeah|also|listen(?:\\s+up)?|look|hi|hello|hey|pencils(?:\\s+(?:out|up|ready))?|take\\s+a\\s+pencil|pencil\\s+this\\s+in"
              + "|(?:good|bad)\\s+news|(?:one\\s+more|another|next|last|a\\s+small|small|quick)\\s+(?:thing|one|note|change)|change\\s+of\\s+plan|excuse\\s+me|if\\s+you\\s+would|basically"
              + "|by\\s+the\\s+way|heads\\s+up|for\\s+the\\s+record|note\\s+this|(?:can\\s+you\\s+all\\s+)?write\\s+this\\s+down|thanks|thank\\s+you|from\\s+now\\s+on|as\\s+of\\s+(?:now|today)|(?:that\\s+was\\s+)?(?:lovely|great|good|better|nice|beautiful)"
              + ")(?=\\s*[,.!:-]|\\s+(?:everyone|everybody|guys|folks|lads|chaps|team|people|band)\\b)");

  /** Said last. */
  private static final List<String> LAST =
      List.of(
          "please",
          "thanks(?:\\s+(?:a\\s+lot|very\\s+much|so\\s+much))?",
          "thank\\s+you(?:\\s+(?:very|so)\\s+much)?",
          "cheers",
          "ta",
          "ok(?:ay)?",
          "(?<=,\\s)(?:all\\s+right|alright|right|i'm\\s+afraid|if\\s+possible|as\\s+we\\s+said|as\\s+agreed)",
          "would\\s+you",
          "could\\s+you",
          "will\\s+you",
          "can\\s+you",
          "shall\\s+we",
          "if\\s+you\\s+(?:would|could|can|please|don't\\s+mind)",
          "if\\s+that's\\s+(?:all\\s+right|ok(?:ay)?|alright)(?:\\s+with\\s+you)?",
          "got\\s+(?:it|that)",
          "everybody\\s+got\\s+that",
          "have\\s+you\\s+got\\s+that",
          "that's\\s+(?:it|all)",
          "from\\s+now\\s+on",
          "(?<=,\\s)(?:by\\s+the\\s+way|just\\s+so\\s+you\\s+know|fyi|for\\s+your\\s+information)",
          "as\\s+of\\s+(?:now|today)",
          "for\\s+good",
          "tonight\\s+and\\s+for\\s+the\\s+(?:rest\\s+of\\s+the\\s+)?run",
          "for\\s+the\\s+(?:rest\\s+of\\s+the\\s+)?run");

  private static final String WHO = either(PEOPLE);
  private static final Pattern BEFORE =
      phrase(
          "^(?:(?:"
              + either(FIRST)
              + ")(?:[,.:!-]+\\s*|\\s+(?:"
              + WHO
              + ")[,.!-]+\\s*|\\s+(?=\\S))|(?:"
              + WHO
              + ")[,:!.-]+\\s*)");
  private static final Pattern BEHIND =
      phrase("(?:,?\\s+(?:" + either(LAST) + ")|,\\s+(?:" + WHO + "))\\s*[.!?]*$");

  /** Between two commas it is said to somebody, or fills. */
  private static final Pattern INSIDE =
      phrase(
          ",\\s+(?:"
              + WHO
              + "|"
              + either(LAST.stream().filter(l -> !l.matches("right|there|ok.*")).toList())
              + ")(?=\\s*[,.!?;])");

  /** The frames that an order stands in when it is wished for: "what I need is", "I'd like". */
  private static final Pattern WISH =
      phrase(
          "^(?:what\\s+(?:i|we)(?:'d)?\\s+(?:need|want|like|would\\s+like)(?:\\s+(?:here|there|now|you\\s+to\\s+do))*\\s+(?:is|are|to\\s+do\\s+is)\\s+"
              + "|(?:i|we)(?:'d|\\s+would)\\s+(?:like|love|prefer)\\s+(?:you\\s+(?:all\\s+)?)?to\\s+(?!have\\s)"
              + "|(?:can|could|would|will)\\s+(?:everybody|everyone|we\\s+all|you\\s+all|all\\s+of\\s+you)\\s+(?:please\\s+|just\\s+)*"
              + "|(?:i|we)\\s+(?:want|need)\\s+(?:you|us|everyone)\\s+(?:all\\s+)?to\\s+"
              + "|(?:we've|we\\s+have|i've|i\\s+have)\\s+decided\\s+(?:to|that\\s+we(?:'re|\\s+are|'ll|\\s+will)?)\\s+"
              + "|(?:we're|we\\s+are|i'm|i\\s+am)\\s+(?:going\\s+to|gonna)\\s+"
              + "|(?:(?:can|could|would|will)\\s+you|would\\s+you\\s+mind|might\\s+we)\\s+(?:all\\s+|both\\s+|just\\s+|please\\s+)*(?:mark(?:\\s+in)?|write\\s+in|pencil\\s+in|put\\s+in|note)\\s+(?=(?:a|the|that)\\s+(?:cut|vamp|safety|hold|fermata|repeat|rit)))");

  private Fillers() {}

  private static String either(List<String> ways) {
    return String.join("|", ways);
  }

  /** Returns a message without its fillers; nothing but fillers stays as it is. */
  public static String off(String said) {
    String text = said.strip();
    String before;
    do {
      before = text;
      text = INSIDE.matcher(text).replaceAll("").strip();
      text = left(text, BEFORE.matcher(text).replaceFirst("").strip());
      text = left(text, BEHIND.matcher(text).replaceFirst("").strip());
      text = left(text, WISH.matcher(text).replaceFirst("").strip());
    } while (!text.equals(before));
    return text;
  }

  private static String left(String before, String after) {
    return after.isBlank() ? before : after;
  }
}
