package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.JumpTo;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;

/** Reads words about going from one number into another: "from No. 1 bar 4 to No. 2 bar 5". */
final class NumberJumps {
  private static final String NUMBER = "(?:(?:no|nr)\\b\\.?|number|#|\\u2116)\\s*(\\w{1,6})";
  private static final Pattern JUMP =
      phrase(
          "(?:(?:go|jump)\\s+)?(?:straight\\s+)?(?:from\\s+|after\\s+)?"
              + NUMBER
              + "(?:\\s*[,:]?\\s+(?:(?:go|jump)\\s+)?(?:straight\\s+)?(?:from\\s+|after\\s+)?(?:(?:the\\s+)?end\\s+of\\s+)?(?:bar\\s+)?(?!to\\b)(.{1,40}?))?"
              + "\\s+(?:(?:straight|go|jump|on)\\s+)*(?:in)?to\\s+"
              + NUMBER
              + "\\s*[,:]?\\s+(?:at\\s+)?(?:(?:the\\s+)?(?:beginning|start|top)\\s+of\\s+)?(?:bar\\s+)?(.{1,40}?)\\.?");

  private static final Pattern LED =
      Pattern.compile("(?:go|jump|from|after|straight)\\b.*", Pattern.CASE_INSENSITIVE);

  private NumberJumps() {}

  /** Reads a line; "go from 20 to No. 2 bar 5" is about the number named before. */
  static Optional<Heard<ShowChange>> read(
      String line, List<WrittenNumber> numbers, Optional<WrittenNumber> within, String id) {
    return read(line, numbers, id)
        .or(
            () ->
                within
                    .filter(n -> !n.label().isEmpty() && LED.matcher(line).matches())
                    .flatMap(n -> read("No. " + n.label() + ": " + line, numbers, id)));
  }

  private static Optional<Heard<ShowChange>> read(
      String line, List<WrittenNumber> numbers, String id) {
    Matcher m = JUMP.matcher(line);
    if (!m.matches()) {
      return Optional.empty();
    }
    String behind = m.group(2) == null ? "" : m.group(2);
    boolean led = LED.matcher(line).matches();
    if (behind.matches("(?i).*\\b(?:segue|attacca|applause)\\b.*")
        || (!led && !behind.matches(".*\\d.*"))) {
      return Optional.empty(); // how the next number follows, or which comes first
    }
    Optional<WrittenNumber> out = labelled(numbers, m.group(1));
    Optional<WrittenNumber> in = labelled(numbers, m.group(3));
    if (out.isEmpty() || in.isEmpty()) {
      String label = out.isEmpty() ? m.group(1) : m.group(3);
      return Optional.of(
          new Heard.AskedBack<>(line, "There is no No. " + label + " in this book.", all(numbers)));
    }
    String from = m.group(2) == null ? "end" : named(out.get(), m.group(2).strip());
    String to = named(in.get(), m.group(4).strip());
    if (out.get() == in.get()) {
      return Optional.empty(); // within one number it is a cut, or a jump back
    }
    for (Found found :
        List.of(new Addresses(out.get()).find(from), new Addresses(in.get()).find(to))) {
      if (found instanceof Found.Refused refused) {
        return Optional.of(new Heard.AskedBack<>(line, refused.text(), refused.candidates()));
      }
    }
    JumpTo.Jump jump =
        new JumpTo.Jump(
            Meta.of(id),
            out.get().label(),
            from,
            Optional.of(in.get().label()),
            to,
            Optional.empty());
    return Optional.of(
        new Heard.Understood<>(
            line,
            jump,
            out.get().spoken()
                + ": after bar "
                + from
                + " straight to bar "
                + to
                + " of "
                + in.get().spoken()
                + "."));
  }

  /** A bar that is counted from another gets its own name. */
  private static String named(WrittenNumber number, String bar) {
    boolean counted = bar.matches("(?i)\\S+\\s+(?:before|after)\\s.*");
    return counted && new Addresses(number).find(bar) instanceof Found.At at
        ? number.nameAt(at.place().slot())
        : bar;
  }

  private static Optional<WrittenNumber> labelled(List<WrittenNumber> numbers, String label) {
    List<WrittenNumber> same =
        numbers.stream().filter(n -> n.label().equalsIgnoreCase(label)).toList();
    return same.size() == 1 ? Optional.of(same.get(0)) : Optional.empty();
  }

  private static List<String> all(List<WrittenNumber> numbers) {
    return numbers.stream().map(WrittenNumber::label).limit(PlanFinding.MOST_NUMBERS).toList();
  }
}
