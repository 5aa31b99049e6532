package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.bar.Scope;

/** "Cut 34 49": from one bar to the other, or both of them; the sign between was left out. */
final class TwoBars {
  private static final Pattern TWO =
      Pattern.compile(
          "((?:cut|omit|skip|drop|lose|tacet|vamp|safety|watch(?:\\s+at)?)(?:\\s+bars?)?)\\s+"
              + "(\\d{1,4}[A-Za-z]?)\\s+(\\d{1,4}[A-Za-z]?)",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern NEIGHBOURS =
      Pattern.compile(
          "\\b((?:vamp|safety)(?:\\s+(?:bars?|on|at|in))*)\\s+(\\d{1,4})\\s+(?:and|&)\\s+(\\d{1,4})(?![\\w/])(?!\\s*(?:,|and|&)\\s*\\d)",
          Pattern.CASE_INSENSITIVE);

  private TwoBars() {}

  /** "Vamp 29 and 30" goes round both bars, and not round each. */
  static String neighbours(String words) {
    return NEIGHBOURS
        .matcher(words)
        .replaceAll(
            m ->
                Integer.parseInt(m.group(2)) + 1 == Integer.parseInt(m.group(3))
                    ? m.group(1) + " " + m.group(2) + " to " + m.group(3)
                    : Matcher.quoteReplacement(m.group()));
  }

  /**
   * Asks which is meant; empty where the words are no two bars of the number.
   *
   * @param read reads an instruction
   */
  static Optional<Heard<ShowChange>> read(
      Scope scope, String words, Function<String, Optional<Heard<ShowChange>>> read) {
    Matcher two = TWO.matcher(words);
    if (!two.matches()
        || scope.find(two.group(2)).places().isEmpty()
        || scope.find(two.group(3)).places().isEmpty()) {
      return Optional.empty();
    }
    String verb = two.group(1) + " ";
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    read.apply(verb + two.group(2) + " to " + two.group(3))
        .flatMap(Heard::reading)
        .ifPresent(readings::add);
    Optional<Heard.Reading<ShowChange>> first =
        read.apply(verb + two.group(2)).flatMap(Heard::reading);
    Optional<Heard.Reading<ShowChange>> second =
        read.apply(verb + two.group(3)).flatMap(Heard::reading);
    if (first.isPresent() && second.isPresent()) {
      List<ShowChange> both = new ArrayList<>(first.get().changes());
      both.addAll(second.get().changes());
      readings.add(new Heard.Reading<>(first.get().says() + " " + second.get().says(), both));
    }
    return readings.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Heard.AskedBack<>(
                words, "From one to the other, or both of them?", List.of(), readings));
  }
}
