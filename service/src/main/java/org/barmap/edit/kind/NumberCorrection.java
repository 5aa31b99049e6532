package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.MusicalNumber;

/** Corrections of where musical numbers start. */
public sealed interface NumberCorrection extends Correction {

  /** A musical number starts at this bar, or the one that does is called so. */
  record StartNumber(String bar, String label, String title) implements NumberCorrection {

    /** Reads absent texts as empty. */
    public StartNumber {
      bar = OneBar.id(bar);
      label = label == null ? "" : label.strip();
      title = title == null ? "" : title.strip();
    }

    @Override
    public List<String> validate(Draft draft) {
      if (draft.map().bar(bar).isEmpty()) {
        return List.of(OneBar.noBar(bar));
      }
      return wrongName(label, title);
    }

    @Override
    public Draft applyTo(Draft draft) {
      List<MusicalNumber> numbers = new ArrayList<>(draft.map().numbers());
      Bar b = draft.map().bar(bar).orElseThrow();
      int at = draft.map().indexOf(bar);
      int own = startingAt(numbers, bar);
      if (own >= 0) {
        MusicalNumber old = numbers.get(own);
        numbers.set(own, new MusicalNumber(label, title, old.firstBar(), old.lastBar(), false));
      } else {
        Optional<MusicalNumber> around = Saying.numberOf(draft, b);
        Optional<String> last = around.flatMap(MusicalNumber::lastBar);
        around.ifPresent(
            n ->
                numbers.set(
                    numbers.indexOf(n),
                    n.withBars(n.firstBar(), Optional.of(draft.map().bars().get(at - 1).id()))));
        String end = last.orElseGet(() -> endBeforeNext(draft, at));
        numbers.add(
            place(draft, numbers, at),
            new MusicalNumber(label, title, Optional.of(bar), Optional.of(end), false));
      }
      Draft put = OneBar.put(draft, b, EnumSet.of(Aspect.NUMBER_START));
      return put.withNumbers(numbers);
    }

    /** Returns the last bar before the next musical number. */
    private static String endBeforeNext(Draft draft, int at) {
      List<Bar> bars = draft.map().bars();
      int end = at;
      while (end + 1 < bars.size()
          && startingAt(draft.map().numbers(), bars.get(end + 1).id()) < 0) {
        end++;
      }
      return bars.get(end).id();
    }

    /** Returns the place in the list of numbers: after all that start earlier in the book. */
    private static int place(Draft draft, List<MusicalNumber> numbers, int at) {
      int place = 0;
      for (int i = 0; i < numbers.size(); i++) {
        if (numbers.get(i).firstBar().filter(f -> draft.map().indexOf(f) < at).isPresent()) {
          place = i + 1;
        }
      }
      return place;
    }

    @Override
    public String says(Draft draft) {
      return "No. " + label + " starts at " + Saying.bar(draft, bar);
    }
  }

  /**
   * No musical number starts at this bar: the one before goes on. A tacet one goes by its label.
   */
  record RemoveNumber(String bar, String label) implements NumberCorrection {

    /** Reads absent keys as empty. */
    public RemoveNumber {
      bar = OneBar.id(bar);
      label = label == null ? "" : label.strip();
    }

    @Override
    public List<String> validate(Draft draft) {
      return at(draft) < 0
          ? List.of(bar.isEmpty() ? "There is no such tacet number" : "No number starts there")
          : List.of();
    }

    private int at(Draft draft) {
      List<MusicalNumber> numbers = draft.map().numbers();
      for (int i = 0; i < numbers.size() && bar.isEmpty(); i++) {
        if (numbers.get(i).firstBar().isEmpty() && numbers.get(i).label().equals(label)) {
          return i;
        }
      }
      return bar.isEmpty() ? -1 : startingAt(numbers, bar);
    }

    @Override
    public Draft applyTo(Draft draft) {
      List<MusicalNumber> numbers = new ArrayList<>(draft.map().numbers());
      MusicalNumber gone = numbers.remove(at(draft));
      if (gone.firstBar().isEmpty()) {
        TreeSet<String> labels = new TreeSet<>(draft.settled().tacetNumbers());
        labels.remove(gone.label());
        return draft.withNumbers(numbers).with(draft.settled().withTacetNumbers(labels));
      }
      int first = draft.map().indexOf(bar);
      for (int i = 0; i < numbers.size(); i++) {
        MusicalNumber n = numbers.get(i);
        boolean before =
            first > 0
                && n.lastBar().filter(draft.map().bars().get(first - 1).id()::equals).isPresent();
        if (before) {
          numbers.set(i, n.withBars(n.firstBar(), gone.lastBar()));
        }
      }
      Bar b = draft.map().bar(bar).orElseThrow();
      return OneBar.put(draft, b, EnumSet.of(Aspect.NUMBER_START)).withNumbers(numbers);
    }

    @Override
    public String says(Draft draft) {
      return bar.isEmpty()
          ? "No. " + label + " (tacet) removed"
          : "No number starts at " + Saying.bar(draft, bar);
    }
  }

  /** A number in which the player rests throughout stands before a bar, or at the end. */
  record AddTacetNumber(String before, String label, String title) implements NumberCorrection {

    /** Reads an absent place as the end of the book. */
    public AddTacetNumber {
      before = before == null ? "end" : before;
      label = label == null ? "" : label.strip();
      title = title == null ? "" : title.strip();
    }

    @Override
    public List<String> validate(Draft draft) {
      boolean known = before.equals("end") || startingAt(draft.map().numbers(), before) >= 0;
      List<String> problems = new ArrayList<>(wrongName(label, title));
      if (!known) {
        problems.add("A tacet number stands before the first bar of a number, or at the end");
      }
      if (draft.map().numbers().stream().anyMatch(n -> n.label().equals(label))) {
        problems.add("There is a No. " + label + " already");
      }
      return problems;
    }

    @Override
    public Draft applyTo(Draft draft) {
      List<MusicalNumber> numbers = new ArrayList<>(draft.map().numbers());
      int at = before.equals("end") ? numbers.size() : startingAt(numbers, before);
      numbers.add(at, new MusicalNumber(label, title, Optional.empty(), Optional.empty(), true));
      TreeSet<String> labels = new TreeSet<>(draft.settled().tacetNumbers());
      labels.add(label);
      return draft.withNumbers(numbers).with(draft.settled().withTacetNumbers(labels));
    }

    @Override
    public String says(Draft draft) {
      return "No. " + label + " is tacet";
    }
  }

  private static int startingAt(List<MusicalNumber> numbers, String bar) {
    for (int i = 0; i < numbers.size(); i++) {
      if (numbers.get(i).firstBar().filter(bar::equals).isPresent()) {
        return i;
      }
    }
    return -1;
  }

  private static List<String> wrongName(String label, String title) {
    List<String> problems = new ArrayList<>();
    if (label.isEmpty() || label.length() > 20) {
      problems.add("A number is called by 1 to 20 characters");
    }
    if (title.length() > 200) {
      problems.add("A title has up to 200 characters");
    }
    return problems;
  }
}
