package org.barmap.plan.words.earlier;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.stream.Stream;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.term.Numerals;
import org.barmap.plan.words.grammar.Bars;

/**
 * An earlier change with an end moved by so many bars: "two bars shorter", "it starts two later".
 * Which end that is is asked where nobody said it.
 */
record Moved(Speech speech, Rewording rewording) {

  /** Returns what {@link Forms#MOVED} says of a change; nothing where it has no such bars. */
  List<Heard<ShowChange>> by(ShowChange change, Matcher said) {
    Optional<Stretch> where = change.where();
    Optional<Bars> bars = speech.bars(change.number());
    String count = said.group("many").toLowerCase(Locale.ROOT);
    int many = count.startsWith("a") ? 1 : Numerals.value(count).orElse(0);
    if (where.isEmpty() || bars.isEmpty() || many == 0) {
      return List.of();
    }
    String edge = word(said, "edge") + word(said, "side");
    boolean start = edge.matches("(?:start|begin|front|top).*");
    boolean end = edge.matches("(?:end|stop|finish|back|tail|land|extend|go|run).*");
    String way = said.group("way").toLowerCase(Locale.ROOT);
    boolean longer = way.matches("longer|further|more");
    boolean shorter = way.matches("shorter|less");
    if (!longer && !shorter && !start && !end) {
      return List.of(); // "that cut is two bars later": all of it, or where it starts
    }
    boolean later = way.matches("later");
    int atStart = longer ? -many : shorter || later ? many : -many;
    int atEnd = longer || later ? many : -many;
    List<Heard<ShowChange>> first =
        end ? List.of() : moved(change, where.get(), bars.get(), atStart, 0, word(said, "to"));
    List<Heard<ShowChange>> last =
        start ? List.of() : moved(change, where.get(), bars.get(), 0, atEnd, word(said, "to"));
    if (first.isEmpty() || last.isEmpty()) {
      return first.isEmpty() ? last : first;
    }
    List<Heard.Reading<ShowChange>> readings =
        Stream.of(last, first).flatMap(h -> h.get(0).reading().stream()).toList();
    return List.of(
        new Heard.AskedBack<>(
            said.group(), speech.start(change.number()) + "At which end?", List.of(), readings));
  }

  private static String word(Matcher said, String group) {
    String word = said.group(group);
    return word == null ? "" : word.strip().toLowerCase(Locale.ROOT);
  }

  /** What is said to be the new bar has to be the one that so many bars lead to. */
  private List<Heard<ShowChange>> moved(
      ShowChange change, Stretch where, Bars bars, int atStart, int atEnd, String to) {
    Optional<String> first = moved(bars, where.first(), atStart);
    Optional<String> last = moved(bars, where.last(), atEnd);
    if (first.isEmpty() || last.isEmpty()) {
      return List.of();
    }
    OptionalInt named = to.isEmpty() ? OptionalInt.empty() : bars.slot(to.toUpperCase(Locale.ROOT));
    OptionalInt start = bars.slot(first.get());
    OptionalInt end = bars.slot(last.get());
    int lands = end.orElse(0) + 1;
    boolean other =
        !to.isEmpty()
            && !named.equals(atStart == 0 ? end : start)
            && !(atStart == 0 && named.equals(OptionalInt.of(lands)));
    boolean none = start.isEmpty() || end.isEmpty() || start.getAsInt() > end.getAsInt();
    return none || other
        ? List.of()
        : rewording.starts(change, first.get() + " to " + bar(last.get()));
  }

  /** A mark behind "to" would be where one lands. */
  private static String bar(String last) {
    return last.matches("[A-Z]{1,2}") ? "the bar at " + last : last;
  }

  private static Optional<String> moved(Bars bars, String bar, int by) {
    OptionalInt slot = bars.slot(bar);
    if (by == 0 || slot.isEmpty()) {
      return slot.isEmpty() ? Optional.empty() : Optional.of(bar);
    }
    if (bar.matches("\\d{1,4}")) {
      String named = Integer.toString(Integer.parseInt(bar) + by);
      if (bars.slot(named).equals(OptionalInt.of(slot.getAsInt() + by))) {
        return Optional.of(named);
      }
    }
    return Optional.of(Math.abs(by) + (by < 0 ? " before " : " after ") + bar)
        .filter(b -> bars.slot(b).isPresent());
  }
}
