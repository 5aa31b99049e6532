package org.barmap.exchange.region;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.WrittenNumber;

/**
 * The bars of a map by address: {@code 7:34} is bar 34 of No. 7, {@code 7:24A} the bar labelled 24A
 * there, {@code 7:B + 2} is counted as players do. A book whose bars stand in no number is asked
 * without one, {@code 34}.
 */
public final class BarPlaces {

  /**
   * A single bar.
   *
   * @param number the musical number it is in
   * @param slot its place there, from 0
   */
  public record At(WrittenNumber number, int slot) {

    /** Returns what it is called: its label, or its number. */
    public String name() {
      return number.nameAt(slot);
    }

    /** Returns the entry that holds it; a rest of several bars holds them all. */
    public Bar entry() {
      return number.barAt(slot);
    }

    /** Returns how many bars of its entry come before it. */
    public int within() {
      return slot - number.starts()[number.entryAt(slot)];
    }
  }

  /** What an address leads to. */
  public sealed interface Looked {}

  /** One bar, and no other could be meant. */
  public record One(At at) implements Looked {}

  /**
   * None, or more than one.
   *
   * @param why one sentence
   * @param instead addresses that would be understood; may be empty
   */
  public record None(String why, List<String> instead) implements Looked {
    /** Takes a defensive copy. */
    public None {
      instead = List.copyOf(instead);
    }
  }

  /** So many numbers are named at most, and so many letters of one. */
  private static final int MOST_NAMED = 60;

  private final List<WrittenNumber> numbers;
  private final Map<String, WrittenNumber> byLabel = new HashMap<>();
  private final Map<WrittenNumber, Addresses> addresses = new IdentityHashMap<>();
  private final Map<String, At> firsts = new HashMap<>();

  /** Indexes a map. */
  public BarPlaces(BarMap map) {
    numbers = WrittenNumber.all(map);
    for (WrittenNumber number : numbers) {
      byLabel.putIfAbsent(key(number.label()), number);
      for (int i = 0; i < number.bars().size(); i++) {
        firsts.putIfAbsent(number.bars().get(i).id(), new At(number, number.starts()[i]));
      }
    }
  }

  /** Looks up an address: the number's label, a colon, the bar as players say it. */
  public Looked find(String address) {
    List<String> tried = new ArrayList<>();
    for (int at = address.indexOf(':'); at >= 0; at = address.indexOf(':', at + 1)) {
      String label = address.substring(0, at).strip();
      tried.add(label);
      WrittenNumber number = byLabel.get(key(label));
      if (number != null) {
        return in(number, address.substring(at + 1).strip());
      }
    }
    if (tried.isEmpty()) {
      return numbers.size() == 1
          ? in(numbers.get(0), address.strip())
          : new None("Say which number the bar is in, as 7:34", labels());
    }
    return new None("This book has no No. " + clipped(tried.get(0)), labels());
  }

  private Looked in(WrittenNumber number, String bar) {
    Found found = addresses.computeIfAbsent(number, Addresses::new).find(bar);
    if (found instanceof Found.At at) {
      return new One(new At(number, at.place().slot()));
    }
    Found.Refused refused = (Found.Refused) found;
    String prefix = number.label().isEmpty() ? "" : number.label() + ":";
    String why = refused.text();
    return new None(
        why.substring(0, 1).toUpperCase(Locale.ROOT) + why.substring(1),
        refused.candidates().stream().map(c -> prefix + c).toList());
  }

  /** Returns the first bar of an entry; empty where it stands in no number. */
  public Optional<At> first(Bar entry) {
    return Optional.ofNullable(firsts.get(entry.id()));
  }

  /**
   * Returns the address of a bar; empty where none leads to it alone: a number that occurs twice.
   */
  public Optional<String> address(At at) {
    String label = at.number().label();
    String said = label.isEmpty() ? at.name() : label + ":" + at.name();
    return find(said) instanceof One one && one.at().equals(at)
        ? Optional.of(said)
        : Optional.empty();
  }

  /** Returns a bar so many bars on, or back, in the same number. */
  public Optional<At> moved(At at, int bars) {
    int slot = at.slot() + bars;
    return slot >= 0 && slot < at.number().slots()
        ? Optional.of(new At(at.number(), slot))
        : Optional.empty();
  }

  private List<String> labels() {
    return numbers.stream().map(n -> n.label() + ":").limit(MOST_NAMED).toList();
  }

  private static String key(String label) {
    return label.strip().toLowerCase(Locale.ROOT);
  }

  private static String clipped(String label) {
    return label.length() > MOST_NAMED ? label.substring(0, MOST_NAMED) + "\u2026" : label;
  }
}
