package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.edit.draft.Systems;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/**
 * A line of music that a person drew a frame over, with what was read inside it. The frame is the
 * person's: no later reading takes the line away. What is read in it is as doubtful as in a line
 * that was found.
 *
 * @param drawn the frame
 * @param read what the page says, reckoned with that line on it
 * @param headed whether the heading of a musical number stands over it
 */
public record ReadLine(PageCorrection.AddSystem drawn, BarMap read, boolean headed) {

  /** Returns the draft with the line; one bar where nothing was read in the frame. */
  public Draft applyTo(Draft draft) {
    Optional<StaffSystem> line = line(draft);
    return line.isEmpty() ? drawn.applyTo(draft) : put(draft, line.get());
  }

  /** Returns the line for the history. */
  public String says(Draft draft) {
    return line(draft)
        .map(l -> "Line read on page %d: %s".formatted(drawn.page(), bars(barsOf(l).size())))
        .orElseGet(() -> drawn.says(draft));
  }

  private static String bars(int n) {
    return n == 1 ? "1 bar" : n + " bars";
  }

  /**
   * The line that was read in the frame; none where it has no bars, or is one that is there: a hand
   * that draws between two lines doesn't mean either of them.
   */
  private Optional<StaffSystem> line(Draft draft) {
    Outline frame = drawn.outline().orElseThrow();
    List<StaffSystem> there = Lookup.page(draft, drawn.page()).map(Page::systems).orElse(List.of());
    return read.pages().stream()
        .filter(p -> p.index() == drawn.page())
        .flatMap(p -> p.systems().stream())
        .filter(s -> Systems.level(s.outline(), frame))
        .filter(s -> there.stream().noneMatch(t -> Systems.overlap(t.outline(), s.outline())))
        .min(
            Comparator.comparingDouble(
                s -> Math.abs(Systems.middle(s.outline()) - Systems.middle(frame))))
        .filter(s -> !barsOf(s).isEmpty());
  }

  private List<Bar> barsOf(StaffSystem line) {
    return read.bars().stream()
        .filter(b -> b.page() == drawn.page() && b.system() == line.index())
        .toList();
  }

  private Draft put(Draft draft, StaffSystem line) {
    int page = drawn.page();
    List<StaffSystem> systems = new ArrayList<>(Lookup.page(draft, page).orElseThrow().systems());
    int free = systems.stream().mapToInt(StaffSystem::index).max().orElse(0) + 1;
    systems.add(Systems.withIndex(line, free));
    Draft arranged = Systems.arrange(draft, page, systems);
    int index =
        Lookup.page(arranged, page).orElseThrow().systems().stream()
            .filter(s -> s.outline().equals(line.outline()))
            .mapToInt(StaffSystem::index)
            .findFirst()
            .orElseThrow();
    int at = Systems.position(arranged, page, index);
    Map<String, String> ids = new HashMap<>();
    Draft filled = arranged;
    for (Bar bar : barsOf(line)) {
      String id = Lookup.freshId(filled);
      filled = inserted(filled, bar.toBuilder().id(id).system(index).build(), at + ids.size());
      ids.put(bar.id(), id);
    }
    String last = filled.map().bars().get(at + ids.size() - 1).id();
    if (at > 0) {
      String before = filled.map().bars().get(at - 1).id();
      filled = filled.withNumbers(Splitting.lastBarMoves(filled.map().numbers(), before, last));
    }
    Draft held = carried(filled, at, ids.size());
    return asked(begun(held, ids), ids);
  }

  /** Puts a bar in; what is not drawn at it goes on from the bar before. */
  private static Draft inserted(Draft draft, Bar bar, int at) {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    Bar put = bar;
    for (Held<?> held : List.of(Held.METER, Held.KEY)) {
      put = goneOn(held, put, at == 0 ? Optional.empty() : Optional.of(bars.get(at - 1)));
    }
    bars.add(at, put);
    return draft.withBars(bars).with(draft.settled().with(put.id(), Set.of(Aspect.SHAPE)));
  }

  private static <T> Bar goneOn(Held<T> held, Bar bar, Optional<Bar> before) {
    return held.drawnAt(bar) ? bar : held.with(bar, before.flatMap(held::after));
  }

  /** What is drawn in the line holds on behind it. */
  private static Draft carried(Draft draft, int at, int many) {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    Set<String> verified = new HashSet<>();
    for (Bar bar : bars) {
      if (draft.settled().verifiedPages().contains(bar.page())) {
        verified.add(bar.id());
      }
    }
    for (Held<?> held : List.of(Held.METER, Held.KEY)) {
      for (int i = at; i < at + many; i++) {
        if (held.drawnAt(bars.get(i))) {
          held.carry(bars, i, draft, verified);
        }
      }
    }
    return draft.withBars(bars);
  }

  /** Musical numbers whose headings stand over the line; one that began behind it begins here. */
  private Draft begun(Draft draft, Map<String, String> ids) {
    Draft made = draft;
    for (MusicalNumber n : read.numbers()) {
      Optional<String> first = n.firstBar().map(ids::get);
      if (headed && first.isPresent() && !n.label().isEmpty()) {
        made = begun(made, n, first.get(), ids);
      }
    }
    return made;
  }

  private static Draft begun(Draft draft, MusicalNumber n, String first, Map<String, String> ids) {
    List<Bar> bars = draft.map().bars();
    int next = draft.map().indexOf(first);
    while (next < bars.size() && ids.containsValue(bars.get(next).id())) {
      next++;
    }
    Optional<String> behind =
        next < bars.size() ? Optional.of(bars.get(next).id()) : Optional.empty();
    List<MusicalNumber> numbers = new ArrayList<>(draft.map().numbers());
    for (int i = 0; i < numbers.size(); i++) {
      MusicalNumber own = numbers.get(i);
      if (own.label().equals(n.label()) && behind.isPresent() && own.firstBar().equals(behind)) {
        numbers.set(i, own.withBars(Optional.of(first), own.lastBar()));
        return ended(draft.withNumbers(numbers), i, first);
      }
    }
    NumberCorrection.StartNumber start =
        new NumberCorrection.StartNumber(first, n.label(), n.title());
    return start.validate(draft).isEmpty() ? start.applyTo(draft) : draft;
  }

  /** The number before one that begins earlier ends earlier. */
  private static Draft ended(Draft draft, int number, String first) {
    List<MusicalNumber> numbers = new ArrayList<>(draft.map().numbers());
    int at = draft.map().indexOf(first);
    for (int i = 0; i < number; i++) {
      MusicalNumber before = numbers.get(i);
      boolean over = before.lastBar().filter(l -> draft.map().indexOf(l) >= at).isPresent();
      if (over && at > 0) {
        String last = draft.map().bars().get(at - 1).id();
        numbers.set(i, before.withBars(before.firstBar(), Optional.of(last)));
      }
    }
    return draft.withNumbers(numbers);
  }

  /** What the reading asks about the line is asked with the rest. */
  private Draft asked(Draft draft, Map<String, String> ids) {
    List<Finding> findings = new ArrayList<>(draft.map().findings());
    for (Finding f : read.findings()) {
      f.bar().map(ids::get).ifPresent(id -> findings.add(renamed(f, id, ids)));
    }
    return draft.with(draft.map().withFindings(findings));
  }

  private static Finding renamed(Finding f, String id, Map<String, String> ids) {
    List<Finding.Answer> answers = new ArrayList<>();
    for (Finding.Answer answer : f.answers()) {
      Map<String, String> correction = new HashMap<>(answer.correction());
      for (String key : List.of("bar", "to", "before")) {
        correction.computeIfPresent(key, (k, old) -> ids.getOrDefault(old, old));
      }
      answers.add(new Finding.Answer(answer.label(), correction));
    }
    return new Finding(
        f.severity(),
        f.stage(),
        f.page(),
        f.system(),
        Optional.of(id),
        f.outline(),
        f.code(),
        f.text(),
        answers,
        f.weight());
  }
}
