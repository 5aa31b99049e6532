package org.barmap.exchange.musicxml.write;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.order.OpenStretch;

/**
 * What a map says and MusicXML has no sign for: it stands in the file as words at most, so that a
 * program which plays the file doesn't know it.
 *
 * @param where "No. 7, bar 12"; empty where it holds for the whole file
 * @param text one sentence
 * @param order because of it a program may play other bars than the plan
 */
public record NotSaid(String where, String text, boolean order) {
  /** So many of a kind are told one by one; then how many more there are. */
  private static final int MOST = 20;

  private static final Set<Question.Topic> OF_THE_ORDER =
      EnumSet.of(
          Question.Topic.REPEAT,
          Question.Topic.VAMP,
          Question.Topic.LANDING,
          Question.Topic.DUPLICATE);

  /** What holds for every file. */
  static final NotSaid ALWAYS =
      new NotSaid(
          "",
          "There are no notes: a bar of music is filled with one that is neither drawn nor heard."
              + " Where the bars lie on the pages and how surely they were read stays in the bar"
              + " map.",
          false);

  private static final NotSaid OTHERWISE =
      new NotSaid(
          "",
          "A program that plays this file may play other bars than the plan, at the places below"
              + " that say so; saved for playing, the same bars are written so that it doesn't.",
          false);

  /** Returns the sentence with its place in front. */
  public String says() {
    return where.isEmpty() ? text : where + ": " + text;
  }

  /** Returns what a file of the whole book leaves unsaid, in the order of the book. */
  public static List<NotSaid> of(BarMap map) {
    return of(map, map.numbers(), true);
  }

  /** Returns what a file of one number leaves unsaid. */
  public static List<NotSaid> of(BarMap map, MusicalNumber number) {
    // a book of this number alone: planning the others for it would take far longer
    BarMap alone =
        BarMap.of(map.book(), List.of(), List.of(number), List.copyOf(map.barsOf(number)));
    return of(alone, List.of(number), false);
  }

  private static List<NotSaid> of(BarMap map, List<MusicalNumber> numbers, boolean whole) {
    List<NotSaid> all = new ArrayList<>();
    all.add(ALWAYS);
    Finder finder = new Finder(map, whole);
    List<NotSaid> found = new ArrayList<>();
    if (map.numbers().isEmpty()) {
      finder.number("", map.bars(), true, found);
    }
    for (MusicalNumber number : numbers) {
      String name = NumberNames.of(number);
      if (number.firstBar().isEmpty() || number.tacet()) {
        found.add(silent(name, "this part has no bars in it, so it isn't in the file."));
      }
      finder.number(name, map.barsOf(number), number == numbers.get(0), found);
    }
    if (found.stream().anyMatch(NotSaid::order)) {
      all.add(OTHERWISE);
    }
    all.addAll(found);
    return all;
  }

  /** Tells whether a finding of the printed form may change which bars are played. */
  public static boolean hangsOnTheOrder(PlanFinding finding) {
    return finding.severity() != Severity.INFO
        && finding.question().filter(q -> !OF_THE_ORDER.contains(q.topic())).isEmpty();
  }

  /** Tells whether words at a jump say how repeats go after it, which programs take their way. */
  public static boolean ofRepeatsAfterAJump(Bar bar) {
    return bar.words().stream().anyMatch(w -> Form.ofAJump(bar, w));
  }

  private static NotSaid silent(String where, String text) {
    return new NotSaid(where, text, false);
  }

  private static NotSaid played(String where, String text) {
    return new NotSaid(where, text, true);
  }

  /** Looks through numbers with the plan of the printed book beside it. */
  private static final class Finder {
    private final Map<String, List<OpenStretch>> open = new HashMap<>();
    private final Set<String> silent;
    private final Set<String> played = new HashSet<>();
    private final Map<String, String> asked = new HashMap<>();
    private final boolean whole;

    Finder(BarMap map, boolean whole) {
      this.whole = whole;
      Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
      List<NumberPlan> plans = plan.numbers();
      plan.findings().stream()
          .filter(NotSaid::hangsOnTheOrder)
          .forEach(f -> f.at().ifPresent(at -> asked.putIfAbsent(at, f.text())));
      for (NumberPlan number : plans) {
        number.order().forEach(e -> played.add(e.bar()));
        number.open().forEach(o -> open.computeIfAbsent(o.first(), f -> new ArrayList<>()).add(o));
      }
      silent =
          plans.stream()
              .flatMap(p -> p.order().stream())
              .filter(e -> e.silent().isPresent())
              .map(NumberPlan.Entry::bar)
              .collect(Collectors.toSet());
    }

    void number(String name, List<Bar> bars, boolean first, List<NotSaid> found) {
      String place = name.isEmpty() ? "" : name + ", ";
      List<NotSaid> here = new ArrayList<>();
      boolean meterKnown = true;
      boolean inside = false;
      boolean passedOver = false;
      for (int i = 0; i < bars.size(); i++) {
        Bar bar = bars.get(i);
        String where = place + "bar " + bar.label().orElse(Integer.toString(bar.number()));
        boolean opens =
            bar.startBarline().startsRepeat()
                || (i > 0 && bars.get(i - 1).endBarline().startsRepeat());
        if (opens && inside) {
          here.add(played(where, "a repeat begins inside a repeat: programs know one level."));
        }
        inside = (inside || opens) && !bar.endBarline().endsRepeat();
        passedOver |= !bar.ending().isEmpty() && !played.contains(bar.id());
        if (passedOver && bar.has(Navigation.CODA)) {
          here.add(
              played(where, "endings before this coda are never played; programs may lose it."));
        }
        ofOrder(bar, first, i == 0 || !bars.get(i - 1).ending().equals(bar.ending()))
            .forEach(text -> here.add(played(where, text)));
        of(bar).forEach(text -> here.add(silent(where, text)));
        if (bar.meter().isEmpty() && meterKnown) {
          here.add(silent(where, "no meter is known here; its bars are filled as 4/4."));
        }
        meterKnown = bar.meter().isPresent();
      }
      // what is left out of a long list has no part in what is played
      here.sort(Comparator.comparing(n -> !n.order()));
      found.addAll(here.subList(0, Math.min(MOST, here.size())));
      if (here.size() > MOST) {
        found.add(silent(name, (here.size() - MOST) + " more of these."));
      }
    }

    /** What a program may play otherwise. */
    private List<String> ofOrder(Bar bar, boolean first, boolean endingBegins) {
      List<String> texts = new ArrayList<>();
      for (OpenStretch stretch : open.getOrDefault(bar.id(), List.of())) {
        boolean vamp = stretch.kind() == OpenStretch.Kind.VAMP;
        texts.add(
            stretch.says()
                + (vamp ? ": nobody can say how often, so" : ":")
                + " it is there as words only; repeat signs round it are played as any.");
      }
      if (bar.times().isPresent() && !bar.endBarline().endsRepeat()) {
        texts.add("\"play " + bar.times().get() + " times\" without repeat signs is words only.");
      }
      if (endingBegins && bar.ending().size() > 1 && bar.times().isEmpty()) {
        texts.add(
            "this ending is for several times through; programs may take it only the first time.");
      }
      if (whole && !first && bar.has(Navigation.DA_CAPO)) {
        texts.add(
            "a program takes a D.C. back to the beginning of the file, not of the number: save the"
                + " number alone if it is to be played.");
      }
      Optional.ofNullable(asked.get(bar.id()))
          .ifPresent(text -> texts.add("what is printed here is open to question: " + text));
      return texts;
    }

    private List<String> of(Bar bar) {
      List<String> texts = new ArrayList<>();
      if (silent.contains(bar.id())) {
        texts.add("it is played some of the times only, which is words only.");
      }
      if (bar.number() == 0 && bar.label().isEmpty() && !bar.isRest()) {
        texts.add("how long the pickup is isn't known; it fills a whole bar.");
      }
      return texts;
    }
  }
}
