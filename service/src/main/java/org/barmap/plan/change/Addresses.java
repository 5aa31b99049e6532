package org.barmap.plan.change;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.plan.change.term.Figures;

/** Looks addresses up in one musical number. */
public final class Addresses {
  private final WrittenNumber number;
  private final Counted counted;
  private final Map<Integer, List<Integer>> byNumber = new HashMap<>();
  private final Map<String, List<Integer>> byLabel = new HashMap<>();
  private final Map<String, List<Integer>> byMark = new LinkedHashMap<>();

  /** Indexes a number. */
  public Addresses(WrittenNumber number) {
    this.number = number;
    this.counted = new Counted(number);
    for (int i = 0; i < number.bars().size(); i++) {
      Bar bar = number.bars().get(i);
      int slot = number.starts()[i];
      if (bar.label().isPresent() && bar.count() == 1) {
        put(byLabel, bar.label().get().toLowerCase(Locale.ROOT), slot);
      } else if (bar.count() == 1) {
        put(byNumber, bar.number(), slot);
      }
      bar.rehearsal().ifPresent(m -> put(byMark, m.text().strip().toLowerCase(Locale.ROOT), slot));
    }
  }

  private static <K> void put(Map<K, List<Integer>> into, K key, int slot) {
    into.computeIfAbsent(key, k -> new ArrayList<>()).add(slot);
  }

  /** Looks up an address in the words a player says. */
  public Found find(String words) {
    return Address.parse(words)
        .map(this::find)
        .orElseGet(
            () ->
                new Found.Refused(
                    "\"" + clip(words) + "\" is no bar address; say 34, 24A, B, 4 before B, B + 2",
                    List.of()));
  }

  /** Looks up an address. */
  public Found find(Address address) {
    if (number.slots() == 0) {
      return new Found.Refused(number.spoken() + " has no bars in this book", List.of());
    }
    Set<Integer> anchors = anchors(address);
    if (anchors.isEmpty()) {
      return new Found.Refused(
          number.spoken() + " has no " + spoken(address) + "; it has " + range(), nearest());
    }
    if (anchors.size() > 1) {
      return ambiguous(spoken(address), anchors);
    }
    Set<Integer> slots = counted.from(anchors.iterator().next(), address.offset());
    if (slots.size() > 1) {
      return ambiguous("that", slots);
    }
    int slot = slots.iterator().next();
    if (slot < 0 || slot >= number.slots()) {
      return new Found.Refused(
          "that is outside " + number.spoken() + ", which has " + range(),
          List.of(number.nameAt(0), number.nameAt(number.slots() - 1)));
    }
    double beat = address.beat().orElse(1);
    int beats = number.barAt(slot).meter().map(m -> m.beats()).orElse(Integer.MAX_VALUE);
    if (beat >= beats + 1.0) {
      return new Found.Refused(
          "bar " + number.nameAt(slot) + " has no beat " + Figures.plain(beat) + ", only " + beats,
          List.of());
    }
    return new Found.At(new Place(slot, address.beat()));
  }

  private Found ambiguous(String said, Set<Integer> slots) {
    List<String> names = slots.stream().filter(this::exists).map(this::describe).toList();
    return new Found.Refused(said + " can be " + String.join(" or ", names), names);
  }

  private boolean exists(int slot) {
    return slot >= 0 && slot < number.slots();
  }

  /**
   * Returns the slot so many bars on, or back, from a slot as the bars are numbered; the one as
   * written where that isn't clear.
   */
  public int moved(int slot, int bars) {
    Set<Integer> slots = counted.from(slot, bars);
    return slots.size() == 1 ? slots.iterator().next() : slot + bars;
  }

  /** Returns the names of all rehearsal marks, in order. */
  public List<String> marks() {
    return number.bars().stream().flatMap(b -> b.rehearsal().stream()).map(m -> m.text()).toList();
  }

  private Set<Integer> anchors(Address address) {
    Set<Integer> slots = new LinkedHashSet<>();
    String word = address.anchor().toLowerCase(Locale.ROOT);
    switch (address.kind()) {
      case START -> slots.add(0);
      case END -> slots.add(number.slots() - 1);
      case MARK -> slots.addAll(byMark.getOrDefault(word, List.of()));
      case BAR -> slots.addAll(barsCalled(word));
      case ANY -> {
        slots.addAll(barsCalled(word));
        slots.addAll(byMark.getOrDefault(word, List.of()));
      }
    }
    address.ending().ifPresent(e -> slots.removeIf(s -> !number.barAt(s).ending().contains(e)));
    return slots;
  }

  private List<Integer> barsCalled(String word) {
    List<Integer> found = new ArrayList<>(byLabel.getOrDefault(word, List.of()));
    if (word.matches("\\d{1,6}")) {
      int wanted = Integer.parseInt(word);
      found.addAll(byNumber.getOrDefault(wanted, List.of()));
      for (int i = 0; i < number.bars().size(); i++) {
        Bar bar = number.bars().get(i);
        if (bar.count() > 1 && wanted >= bar.number() && wanted < bar.nextNumber()) {
          found.add(number.starts()[i] + wanted - bar.number());
        }
      }
    }
    return found;
  }

  private String describe(int slot) {
    Bar bar = number.barAt(slot);
    String mark = bar.rehearsal().map(m -> " at mark " + m.text()).orElse("");
    String name = number.nameAt(slot);
    boolean said = bar.ending().isEmpty() || name.endsWith(" ending");
    String ending = said ? "" : " in ending " + bar.ending().get(0);
    return "bar "
        + name
        + mark
        + ending
        + " (page "
        + bar.page()
        + ", system "
        + bar.system()
        + ")";
  }

  private String range() {
    List<String> marks = marks();
    String bars =
        "bars " + number.nameAt(0) + " to " + number.nameAt(Math.max(0, number.slots() - 1));
    return marks.isEmpty()
        ? bars
        : bars + " and marks " + String.join(", ", marks.subList(0, Math.min(12, marks.size())));
  }

  private List<String> nearest() {
    List<String> names = new ArrayList<>(marks());
    names.add(0, number.nameAt(0));
    names.add(number.nameAt(number.slots() - 1));
    return names.size() > 14 ? names.subList(0, 14) : names;
  }

  private static String spoken(Address address) {
    return switch (address.kind()) {
      case MARK -> "mark " + address.anchor();
      case BAR -> "bar " + address.anchor();
      default -> address.anchor();
    };
  }

  private static String clip(String words) {
    return words.length() > 40 ? words.substring(0, 40) + "\u2026" : words;
  }
}
