package org.barmap.plan.words;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;

/** One instruction for one number. */
final class Instruction extends Reader {
  private static final Pattern TACET = Pattern.compile("(?:is\\s+|all\\s+)?tacet", FLAGS);
  private static final Pattern CUT_ALL =
      Pattern.compile(
          "(?:is\\s+|whole\\s+number\\s+)?(?:cut|out|omitted|omit)(?:\\s+(?:completely|entirely|(?:the\\s+)?(?:whole\\s+)?number))?",
          FLAGS);
  private static final Pattern NOTED = Pattern.compile("(.+?)\\s*\\(([^()]{1,300})\\)", FLAGS);

  Instruction(WrittenNumber number, String words, Meta meta) {
    super(number, words, meta);
  }

  /** Reads it; a remark in brackets behind it is a note. */
  Heard read() {
    Heard heard = whole();
    Matcher noted = NOTED.matcher(words);
    if (heard instanceof Heard.Understood || !noted.matches()) {
      return heard;
    }
    Meta withNote =
        new Meta(meta.id(), meta.on(), meta.when(), meta.who(), Optional.of(noted.group(2)));
    Heard without = new Instruction(number, noted.group(1), withNote).whole();
    return without instanceof Heard.Understood ? without : heard;
  }

  private Heard whole() {
    if (TACET.matcher(words).matches()) {
      return understood(new ShowChange.Tacet(meta, number.label()), "you don't play");
    }
    if (CUT_ALL.matcher(words).matches()) {
      return understood(new ShowChange.CutNumber(meta, number.label()), "the number is cut");
    }
    return new StretchReader(number, words, meta)
        .read()
        .or(() -> new LedTempo(number, words, meta).read())
        .or(() -> new KeyReader(number, words, meta).read())
        .or(() -> new PointReader(number, words, meta).read())
        .orElseGet(
            () ->
                asked(
                    "This was not understood.",
                    List.of(
                        "cut 34 to 49",
                        "vamp B to B + 1",
                        "play 10 to 13 three times",
                        "in two from 20 to 40")));
  }
}
