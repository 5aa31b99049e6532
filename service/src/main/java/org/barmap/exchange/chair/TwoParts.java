package org.barmap.exchange.chair;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.BarMap;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.reckon.compare.BarPairs;

/**
 * Two parts of one show laid beside each other, number by number: this chair's and another one, the
 * director's for instance, whose bars are numbered otherwise.
 */
public final class TwoParts {

  /**
   * A place a person named: the two bars are the same.
   *
   * @param number label of the musical number
   * @param here the bar in this part, as players say it
   * @param there the bar in the other part
   */
  public record Pin(String number, String here, String there) {}

  private final Map<String, NumberPair> pairs = new LinkedHashMap<>();
  private final List<WrittenNumber> onlyHere = new ArrayList<>();
  private final List<WrittenNumber> onlyThere = new ArrayList<>();
  private final List<String> problems = new ArrayList<>();
  private final String single;

  private TwoParts(String single) {
    this.single = single;
  }

  /** Lays two parts beside each other, numbers by their labels. */
  public static TwoParts of(BarMap here, BarMap there, List<Pin> pins) {
    List<WrittenNumber> mine = WrittenNumber.all(here);
    TwoParts parts = new TwoParts(mine.size() == 1 ? key(mine.get(0).label()) : "");
    Map<String, WrittenNumber> others = new LinkedHashMap<>();
    WrittenNumber.all(there).forEach(n -> others.putIfAbsent(key(n.label()), n));
    Set<String> known = new HashSet<>();
    for (WrittenNumber number : mine) {
      String key = key(number.label());
      WrittenNumber other = others.get(key);
      if (!known.add(key)) {
        continue;
      }
      if (other == null) {
        parts.onlyHere.add(number);
      } else {
        List<Pin> its = pins.stream().filter(p -> key(p.number()).equals(key)).toList();
        parts.pairs.put(key, parts.pair(number, other, its));
      }
    }
    others.forEach(
        (key, number) -> {
          if (!known.contains(key)) {
            parts.onlyThere.add(number);
          }
        });
    pins.stream()
        .filter(p -> !parts.pairs.containsKey(key(p.number())))
        .forEach(p -> parts.problems.add(said(p) + "the two books have no such number in common."));
    return parts;
  }

  private NumberPair pair(WrittenNumber here, WrittenNumber there, List<Pin> pins) {
    List<BarPairs.Pin> found = new ArrayList<>();
    Map<BarPairs.Pin, Pin> whose = new LinkedHashMap<>();
    Addresses mine = new Addresses(here);
    Addresses other = new Addresses(there);
    for (Pin pin : pins) {
      Optional<Integer> first = slot(mine, pin.here(), said(pin), "this book");
      Optional<Integer> second = slot(other, pin.there(), said(pin), "the other book");
      if (first.isPresent() && second.isPresent()) {
        BarPairs.Pin one = new BarPairs.Pin(first.get(), second.get());
        found.add(one);
        whose.put(one, pin);
      }
    }
    found.sort(Comparator.comparingInt(BarPairs.Pin::first));
    List<BarPairs.Pin> kept = new ArrayList<>();
    for (BarPairs.Pin pin : found) {
      BarPairs.Pin before = kept.isEmpty() ? new BarPairs.Pin(-1, -1) : kept.get(kept.size() - 1);
      if (pin.first() > before.first() && pin.second() > before.second()) {
        kept.add(pin);
      } else if (!pin.equals(before)) {
        problems.add(
            said(Objects.requireNonNull(whose.get(pin)))
                + "it crosses another one, and is left out.");
      }
    }
    return NumberPair.of(here, there, kept);
  }

  private Optional<Integer> slot(Addresses in, String bar, String said, String where) {
    Found found = in.find(bar);
    if (found instanceof Found.At at) {
      return Optional.of(at.place().slot());
    }
    problems.add(said + "in " + where + " " + ((Found.Refused) found).text() + ".");
    return Optional.empty();
  }

  private static String said(Pin pin) {
    String number = pin.number().isBlank() ? "" : "No. " + pin.number() + ": ";
    return number + "bar " + pin.here() + " as their " + pin.there() + ": ";
  }

  static String key(String label) {
    return label.strip().toLowerCase(Locale.ROOT);
  }

  /** Returns the numbers both have, in this book's order. */
  public List<NumberPair> numbers() {
    return List.copyOf(pairs.values());
  }

  /** Returns the numbers the other book doesn't have. */
  public List<WrittenNumber> onlyHere() {
    return List.copyOf(onlyHere);
  }

  /** Returns the numbers this book doesn't have. */
  public List<WrittenNumber> onlyThere() {
    return List.copyOf(onlyThere);
  }

  /** Returns what is wrong with the pins, one sentence each. */
  public List<String> problems() {
    return List.copyOf(problems);
  }

  /**
   * Returns a number both have.
   *
   * @param label its label; may be empty in a book that has only one
   */
  public Optional<NumberPair> number(String label) {
    String key = key(label);
    return Optional.ofNullable(pairs.get(key.isEmpty() ? single : key));
  }

  /**
   * Returns what a bar of this book is called in the other, counted on from a mark as players do;
   * empty where that is not sure.
   */
  public Optional<String> of(String number, String bar) {
    return number(number)
        .flatMap(
            pair ->
                new Addresses(pair.here()).find(bar) instanceof Found.At at
                    ? pair.counted(at.place().slot()).map(pair.there()::nameAt)
                    : Optional.empty());
  }

  /** Returns the same two the other way round. */
  public TwoParts turned() {
    TwoParts turned = new TwoParts(pairs.size() + onlyThere.size() == 1 ? singleThere() : "");
    pairs.forEach((key, pair) -> turned.pairs.put(key, pair.turned()));
    turned.onlyHere.addAll(onlyThere);
    turned.onlyThere.addAll(onlyHere);
    return turned;
  }

  private String singleThere() {
    return pairs.keySet().stream().findFirst().orElse("");
  }
}
