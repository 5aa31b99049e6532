package org.barmap.web.planned;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;
import org.barmap.map.rule.AlikeEndings;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.FormMark;
import org.barmap.plan.FormMarks;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.order.OpenStretch;

/**
 * The form of each number, ready to be drawn.
 *
 * @param revision of the map it is drawn from
 * @param changesRevision of the show's changes it is drawn with
 * @param basis names what it follows from besides the map: changes, settings, the day
 * @param marks where the show's changes stand in it
 * @param beside what of the plan is shown beside it
 */
public record RoadMap(
    long revision,
    long changesRevision,
    String basis,
    List<Number> numbers,
    List<FormMark> marks,
    BesideForm beside) {

  /**
   * What is drawn otherwise than before a step of the changes; all else is as it was.
   *
   * @param revision of the map it is drawn from
   * @param before the basis of the form it is laid over; it is of no use over another one
   * @param basis of the form that comes of it
   * @param at places of the numbers that are different, from 0
   * @param numbers those numbers
   * @param marks all of them
   * @param beside all of it
   */
  public record Different(
      long revision,
      String before,
      String basis,
      List<Integer> at,
      List<Number> numbers,
      List<FormMark> marks,
      BesideForm beside) {}

  /** Returns what of it is different from another form of the same map. */
  public Different since(RoadMap before) {
    List<Integer> at =
        IntStream.range(0, numbers.size())
            .filter(
                i -> i >= before.numbers.size() || !numbers.get(i).equals(before.numbers.get(i)))
            .boxed()
            .toList();
    return new Different(
        revision, before.basis, basis, at, at.stream().map(numbers::get).toList(), marks, beside);
  }

  /** One musical number; a book without numbers is one number without a label. */
  public record Number(String label, String title, boolean tacet, List<Box> bars) {}

  /**
   * One bar entry; {@code within} says which ending it is in where its number occurs twice, {@code
   * held} which bars of a multi-bar rest are held open.
   */
  public record Box(
      String id,
      int number,
      Optional<String> label,
      Optional<String> within,
      int count,
      Content content,
      Optional<RehearsalMark> rehearsal,
      Optional<Meter> meter,
      Optional<Key> key,
      Barline start,
      Barline end,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Integer> ending,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Navigation> signs,
      Optional<Integer> times,
      int page,
      boolean cut,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) List<CutParts.CutShare> cutParts,
      boolean vamp,
      boolean safety,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> held,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Word> words) {}

  /**
   * Draws the form.
   *
   * @param revision of the map
   * @param changesRevision of the changes
   * @param basis what the plans follow from besides
   * @param written the plan without changes
   * @param changed the plan with them; what is not played any more is cut, unless the number waits
   * @param changes the show's changes
   */
  static RoadMap of(
      long revision,
      long changesRevision,
      String basis,
      BarMap map,
      Plan written,
      Plan changed,
      ShowChanges changes) {
    Map<String, List<String>> held = inside(changed);
    CutParts cut = CutParts.of(map, written, changed);
    Set<String> vamps = open(map, changed, OpenStretch.Kind.VAMP);
    Set<String> safeties = open(map, changed, OpenStretch.Kind.SAFETY);
    AlikeEndings endings = AlikeEndings.of(map);
    List<Number> numbers = new ArrayList<>();
    for (MusicalNumber n : numbers(map)) {
      List<Box> boxes = new ArrayList<>();
      for (Bar bar : map.barsOf(n)) {
        boxes.add(box(bar, endings.within(bar.id()), cut, vamps, safeties, held));
      }
      numbers.add(new Number(n.label(), n.title(), n.tacet(), boxes));
    }
    return new RoadMap(
        revision,
        changesRevision,
        basis,
        numbers,
        FormMarks.of(map, changes, changed),
        BesideForm.of(changed));
  }

  private static List<MusicalNumber> numbers(BarMap map) {
    if (!map.numbers().isEmpty() || map.bars().isEmpty()) {
      return BookNumbers.of(map);
    }
    return List.of(
        new MusicalNumber(
            "",
            map.book().title(),
            Optional.of(map.bars().get(0).id()),
            Optional.of(map.bars().get(map.bars().size() - 1).id()),
            false));
  }

  private static Box box(
      Bar bar,
      Optional<String> within,
      CutParts cut,
      Set<String> vamps,
      Set<String> safeties,
      Map<String, List<String>> held) {
    CutParts.Out out = cut.out(bar);
    return new Box(
        bar.id(),
        bar.number(),
        bar.label(),
        within,
        bar.count(),
        bar.content(),
        bar.rehearsal(),
        bar.meter(),
        bar.key(),
        bar.startBarline(),
        bar.endBarline(),
        bar.ending(),
        bar.signs(),
        bar.times(),
        bar.page(),
        out.whole(),
        out.parts(),
        vamps.contains(bar.id()),
        safeties.contains(bar.id()),
        held.getOrDefault(bar.id(), List.of()),
        bar.words());
  }

  /**
   * Returns the stretches that begin or end inside a multi-bar rest, by the entry they begin in.
   */
  private static Map<String, List<String>> inside(Plan plan) {
    Map<String, List<String>> held = new HashMap<>();
    for (NumberPlan number : plan.numbers()) {
      for (OpenStretch open : number.open()) {
        if (open.firstBar().isPresent() || open.lastBar().isPresent()) {
          held.computeIfAbsent(open.first(), k -> new ArrayList<>(1)).add(open.named());
        }
      }
    }
    return held;
  }

  private static Set<String> open(BarMap map, Plan plan, OpenStretch.Kind kind) {
    Set<String> bars = new HashSet<>();
    for (NumberPlan number : plan.numbers()) {
      for (OpenStretch open : number.open()) {
        int from = map.indexOf(open.first());
        int to = map.indexOf(open.last());
        for (int i = Math.max(0, from); open.kind() == kind && i <= to; i++) {
          bars.add(map.bars().get(i).id());
        }
      }
    }
    return bars;
  }
}
