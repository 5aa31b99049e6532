package org.barmap.plan.change;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;
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
      return ambiguous(spoken(address), anchors, address);
    }
    Set<Integer> slots = counted(anchors.iterator().next(), address.offset());
    if (slots.size() > 1) {
      return ambiguous("that", slots, address);
    }
    int slot = slots.iterator().next();
    if (slot < 0 || slot >= number.slots()) {
      return new Found.Refused(
          "that is outside " + number.spoken() + ", which has " + range(),
          List.of(number.nameAt(0), number.nameAt(number.slots() - 1)));
    }
    OptionalDouble asSaid = address.beat();
    if (address.unit().isPresent()) {
      if (number.barAt(slot).meter().isEmpty()) {
        return new Found.Refused(noMeter(slot), List.of());
      }
      double figure = number.barAt(slot).meter().get().unit();
      double place = (asSaid.orElse(1) - 1) * figure / address.unit().getAsInt() + 1;
      asSaid = OptionalDouble.of(place);
    }
    double beat = asSaid.orElse(1);
    int beats = number.barAt(slot).meter().map(m -> m.beats()).orElse(Integer.MAX_VALUE);
    if (beat >= beats + 1.0) {
      return new Found.Refused(
          "bar " + number.nameAt(slot) + " has no beat " + Figures.plain(beat) + ", only " + beats,
          List.of());
    }
    return new Found.At(new Place(slot, asSaid));
  }

  /**
   * Bars there are, counted as the numbers do, or else along the page; outside when there is none.
   * Over endings that are numbered alike the count along the page must be borne out by the number
   * it comes to: else it may mean no bar of this book.
   */
  private Set<Integer> counted(int from, int bars) {
    Set<Integer> slots = new TreeSet<>(counted.from(from, bars));
    slots.removeIf(s -> !exists(s));
    int along = from + bars;
    int wanted = number.barAt(from).number() + bars;
    if (slots.isEmpty()) {
      boolean there = !exists(along) || borneOut(along, wanted);
      return Set.of(there ? along : bars < 0 ? -1 : number.slots());
    }
    boolean plain = slots.size() > 1 || slots.contains(along) || !exists(along);
    List<Integer> called = byLabel.isEmpty() ? barsCalled(String.valueOf(wanted)) : List.of();
    if (bars > 0 && called.contains(along) && entersEnding(from, along)) {
      called.stream().filter(s -> s > along).forEach(slots::add); // as many bars on in a later time
      return slots;
    }
    if (plain || called.containsAll(slots)) {
      return slots;
    }
    if (!borneOut(along, wanted)) {
      slots.add(along);
      return slots;
    }
    return Set.of(along);
  }

  /** Tells whether one counts into an ending, from outside it. */
  private boolean entersEnding(int from, int to) {
    List<Integer> ending = number.barAt(to).ending();
    List<Bar> way = number.bars().subList(number.entryAt(from), number.entryAt(to));
    return !ending.isEmpty() && way.stream().anyMatch(b -> !b.ending().equals(ending));
  }

  /** Tells whether the bar counted to has the number so many on; letters leave numbers out. */
  private boolean borneOut(int slot, int wanted) {
    return byLabel.isEmpty() && byNumber.getOrDefault(wanted, List.of()).equals(List.of(slot));
  }

  /** Says why a beat of a bar can't be found. */
  public String noMeter(int slot) {
    return "no meter is known at bar "
        + number.nameAt(slot)
        + ", so its beats can't be counted; enter the meter, or name whole bars";
  }

  private Found ambiguous(String said, Set<Integer> anchors, Address address) {
    List<Integer> there = anchors.stream().filter(this::exists).toList();
    List<String> names = there.stream().map(this::describe).toList();
    return new Found.Refused(
        said + " can be " + String.join(" or ", names),
        names,
        address.offset() == 0
            ? there.stream().map(s -> new Place(s, address.beat())).toList()
            : List.of());
  }

  /** Tells whether an address names a rehearsal mark, and no bar by its number or label. */
  public boolean namesMark(Address address) {
    String word = address.anchor().toLowerCase(Locale.ROOT);
    boolean mark = byMark.containsKey(word);
    return switch (address.kind()) {
      case MARK -> mark;
      case ANY -> mark && barsCalled(word).isEmpty();
      case BAR, START, END, SIGN -> false;
    };
  }

  /** Returns the slot at which the section that begins at a mark ends: its last bar. */
  public int sectionEnd(int slot) {
    for (int i = number.entryAt(slot) + 1; i < number.bars().size(); i++) {
      if (number.bars().get(i).rehearsal().isPresent()) {
        return number.starts()[i] - 1;
      }
    }
    return number.slots() - 1;
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
      case SIGN -> slots.addAll(withSign(word));
      case ANY -> {
        slots.addAll(barsCalled(word));
        slots.addAll(byMark.getOrDefault(word, List.of()));
      }
    }
    address.ending().ifPresent(e -> slots.removeIf(s -> !number.barAt(s).ending().contains(e)));
    return slots;
  }

  private List<Integer> withSign(String word) {
    Navigation sign = word.contains("coda") ? Navigation.CODA : Navigation.SEGNO;
    List<Integer> found = new ArrayList<>();
    for (int i = 0; i < number.bars().size(); i++) {
      if (number.bars().get(i).has(sign)) {
        found.add(number.starts()[i]);
      }
    }
    return found;
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
      case SIGN -> address.anchor();
      default -> address.anchor();
    };
  }

  private static String clip(String words) {
    return words.length() > 40 ? words.substring(0, 40) + "\u2026" : words;
  }
}
