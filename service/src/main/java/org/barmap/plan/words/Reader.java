package org.barmap.plan.words;

import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;

/** What every reader of an instruction has: the number, the words, and how to answer. */
abstract class Reader {
  static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;

  final WrittenNumber number;
  final String words;
  final Meta meta;

  Reader(WrittenNumber number, String words, Meta meta) {
    this.number = number;
    this.words = words;
    this.meta = meta;
  }

  final Heard range(String said, Function<Range, ShowChange> make, String before, String after) {
    Range range = Range.read(number, said);
    if (range.first().isEmpty()) {
      return asked(range.text(), range.candidates());
    }
    String says = range.text().startsWith("bar ") ? after.replaceFirst("^ are ", " is ") : after;
    return understood(make.apply(range), before + range.text() + says);
  }

  final Heard at(String where, Function<String, ShowChange> make, Function<String, String> says) {
    Found found = new Addresses(number).find(where);
    if (found instanceof Found.At at) {
      String name = number.nameAt(at.place().slot());
      return understood(make.apply(name), says.apply(name));
    }
    Found.Refused refused = (Found.Refused) found;
    return asked(refused.text(), refused.candidates());
  }

  final Heard understood(ShowChange change, String says) {
    String start = number.label().isEmpty() ? "" : number.spoken() + ": ";
    String sentence =
        start.isEmpty()
            ? says.substring(0, 1).toUpperCase(Locale.ROOT) + says.substring(1)
            : start + says;
    return new Heard.Understood(words, change, sentence + ".");
  }

  final Heard asked(String question, List<String> candidates) {
    String start = number.label().isEmpty() ? "" : number.spoken() + ": ";
    return new Heard.AskedBack(words, start + question, candidates);
  }
}
