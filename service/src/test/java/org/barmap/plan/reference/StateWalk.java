package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Meter;
import org.barmap.plan.reference.Walk.Step;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.Walked.Sounding;
import org.barmap.plan.reference.print.WrittenNumber;

/**
 * What is in force at every sounding bar, seen in three ways: as the page stands from its beginning
 * to the bar (source: trade.md, landing in force); as a player carries it along, who also reads
 * what is skipped; and as one who does not read endings that are skipped. Where they differ, as
 * behind a jump back over a change of instrument, the trade texts do not say which is right, and
 * each is allowed.
 */
final class StateWalk {

  /**
   * A number as it was walked.
   *
   * @param page what is in force at each of its bars, as the page stands
   * @param all what is in force behind the last bar, as it is carried along
   * @param last the last bar of the book that sounds, or -1
   */
  private record Carried(List<Sounding> order, List<InForce> page, InForce all, int last) {}

  /** What the page says and what a player has in hand when a number begins. */
  private final List<InForce> atBookOrder = new ArrayList<>();

  /** The same without what directors say in the numbers before. */
  private final List<InForce> printed = new ArrayList<>();

  private final List<NumberWalk> numbers;
  private InForce hand;
  private InForce start = new InForce();
  private Carried first = new Carried(List.of(), List.of(), start, -1);
  private int lastShown = -1;

  StateWalk(String part, List<NumberWalk> numbers) {
    this.numbers = numbers;
    InForce state = new InForce();
    String instrument = HandWords.written(part);
    state.set(Aspect.INSTRUMENT, instrument.isEmpty() ? Set.of("?") : Set.of(instrument, "?"));
    // Source: common practice: without a word it is arco and without a mute, or unknown.
    state.set(Aspect.BOW, Set.of("?", "arco"));
    state.set(Aspect.MUTE, Set.of("?", "off"));
    hand = state.copy();
    InForce bare = state.copy();
    for (NumberWalk number : numbers) {
      atBookOrder.add(state.copy());
      printed.add(bare.copy());
      state = through(number, number.resolved().settings, state);
      bare = through(number, List.of(), bare);
    }
  }

  private static InForce through(NumberWalk number, List<Resolved.At> settings, InForce before) {
    InForce state = begin(before, number);
    PagePrint print = new PagePrint(number.number(), settings);
    for (int at = 0; at < number.number().size(); at++) {
      print.arrive(state, at);
    }
    return state;
  }

  /**
   * What holds on into a number. Source: common practice: a meter does, a key and a tempo do not.
   */
  private static InForce begin(InForce before, NumberWalk number) {
    InForce state = before.copy();
    state.set(Aspect.KEY, Aspect.UNKNOWN);
    state.keySaid = Optional.empty();
    state.firstTempo = Set.of();
    state.beforeGradual = Set.of();
    state.set(Aspect.TEMPO, Aspect.UNKNOWN);
    if (number.number().size() > 0 && number.number().bar(0).entry().meter().isEmpty()) {
      state.set(Aspect.METER, InForce.union(before.get(Aspect.METER), Set.of(Aspect.UNKNOWN)));
    }
    state.beatsSaid = Optional.empty();
    state.lastSaid = Optional.empty();
    return state;
  }

  /** Comes to the next number of the show, any of the book; its bars in its first reading. */
  List<Sounding> begin(int k) {
    start = begin(atBookOrder.get(k), numbers.get(k));
    // Source: decided: a number takes over what the one before left in hand.
    for (Aspect aspect : List.of(Aspect.INSTRUMENT, Aspect.BOW, Aspect.MUTE)) {
      // Where the show leaves the order of the book, what the page before had said may count too.
      Set<String> page = InForce.union(start.get(aspect), printed.get(k).get(aspect));
      Set<String> both = InForce.union(page, hand.get(aspect));
      start.set(aspect, lastShown == k - 1 ? hand.get(aspect) : both);
    }
    lastShown = k;
    first = carried(numbers.get(k));
    return first.order();
  }

  /** The bars of the number begun in another of its readings, with what is in force. */
  List<Sounding> order(NumberWalk reading) {
    return carried(reading).order();
  }

  private Carried carried(NumberWalk number) {
    PagePrint print = new PagePrint(number.number(), number.resolved().settings);
    List<InForce> page = page(number, print, start);
    InForce all = start.copy();
    InForce some = start.copy();
    int before = -1;
    List<Map<Aspect, Set<String>>> states = new ArrayList<>();
    for (Step step : number.steps()) {
      if (step.inserted().isEmpty()) {
        carry(print, all, before, step, true);
        carry(print, some, before, step, !leapsEnding(number.number(), before, step.at()));
        before = step.at();
      }
      // What is printed over a bar is not in force in bars that are added before it yet.
      Map<Aspect, Set<String>> now =
          step.ahead() ? Map.of() : together(number, step, page.get(step.at()), all, some);
      states.add(step.meter().isEmpty() ? now : inMeter(now, step.meter().get()));
    }
    return new Carried(number.sounding(states), page, all, before);
  }

  /** Source: common practice (case insertions-11): bars that are added keep to their own meter. */
  private static Map<Aspect, Set<String>> inMeter(Map<Aspect, Set<String>> now, Meter meter) {
    Map<Aspect, Set<String>> state = new EnumMap<>(Aspect.class);
    state.putAll(now);
    Set<String> own = Set.of(meter.beats() + "/" + meter.unit());
    if (!own.equals(now.get(Aspect.METER))) {
      state.put(Aspect.BEATS, PagePrint.shown(meter));
    }
    state.put(Aspect.METER, own);
    return state;
  }

  /** Leaves the number begun as its first reading does. */
  void end(int k) {
    NumberWalk number = numbers.get(k);
    boolean played = number.playing() == Playing.PLAYED;
    leave(first.page(), first.all(), first.last(), played);
    if (!played) {
      // What directors change in a number that is out is out with it; the print may count.
      List<InForce> printed = page(number, new PagePrint(number.number(), List.of()), start);
      leave(printed, first.all(), first.last(), false);
    }
  }

  private static List<InForce> page(NumberWalk number, PagePrint print, InForce start) {
    List<InForce> page = new ArrayList<>();
    InForce state = start.copy();
    for (int at = 0; at < number.number().size(); at++) {
      print.arrive(state, at);
      page.add(state.copy());
    }
    return page;
  }

  private static void carry(PagePrint print, InForce state, int before, Step step, boolean reads) {
    int from = reads && before < step.at() ? before + 1 : step.at();
    for (int at = from; at <= step.at(); at++) {
      print.arrive(state, at);
    }
  }

  private static boolean leapsEnding(WrittenNumber number, int before, int at) {
    return before >= 0 && at > before + 1 && !number.endingAt(before + 1).isEmpty();
  }

  private static Map<Aspect, Set<String>> together(
      NumberWalk number, Step step, InForce page, InForce all, InForce some) {
    Map<Aspect, Set<String>> state = new EnumMap<>(Aspect.class);
    for (Aspect aspect : List.of(Aspect.TEMPO, Aspect.INSTRUMENT, Aspect.BOW, Aspect.MUTE)) {
      Set<String> walked = InForce.union(all.get(aspect), some.get(aspect));
      state.put(aspect, InForce.union(page.get(aspect), walked));
    }
    // Source: barmap-format.md: the meter and the key in force are the page's.
    for (Aspect aspect : List.of(Aspect.METER, Aspect.KEY, Aspect.BEATS)) {
      state.put(aspect, page.get(aspect));
    }
    Optional<String> plays = Optional.empty();
    // What "2nd X only" means after a D.C. or D.S. is nowhere said.
    boolean never = asked(number, "pass-word", number.number().asked(step.at()));
    if (step.times() > 1 && !step.afterJump() && !never) {
      for (String word : number.number().words(step.at())) {
        plays = plays.or(() -> HandWords.plays(word, step.pass(), step.times()));
      }
    }
    boolean open =
        number.resolved().passes.stream()
            .filter(p -> p.from() <= step.at() && step.at() <= p.to())
            .anyMatch(p -> asked(number, "pass-never", p.change().id()));
    open |= number.questions().asked().stream().anyMatch(a -> PASSES.contains(a.key()));
    if (open) {
      state.put(Aspect.PLAYS, Set.of(Aspect.ANY));
      return state;
    }
    // Source: common practice: what the director says of passes counts, and not the print there.
    state.put(Aspect.PLAYS, Set.of(said(number, step).orElse(plays.orElse(Aspect.ANY))));
    return state;
  }

  /** Where these are asked it is not sure how often bars come. */
  private static final Set<String> PASSES = Set.of("vamp-exit", "jump-in-repeat", "ending-no-body");

  private static boolean asked(NumberWalk number, String key, String place) {
    return number.questions().asked().stream()
        .anyMatch(a -> a.key().equals(key) && a.place().equals(place));
  }

  /** What changes say of playing in this pass: "no" of one of them is no. */
  private static Optional<String> said(NumberWalk number, Step step) {
    List<String> all =
        number.resolved().passes.stream()
            .filter(p -> p.from() <= step.at() && step.at() <= p.to())
            .filter(p -> !asked(number, "pass-never", p.change().id()))
            .map(p -> HandWords.plays(p.change(), step))
            .toList();
    if (all.contains("no") || all.isEmpty()) {
      return all.stream().filter("no"::equals).findFirst();
    }
    return Optional.of(all.contains(Aspect.ANY) ? Aspect.ANY : "yes");
  }

  /** What is in hand when a number is left. */
  private void leave(List<InForce> page, InForce walked, int end, boolean played) {
    if (page.isEmpty()) {
      return;
    }
    InForce last = page.get(page.size() - 1);
    for (Aspect aspect : List.of(Aspect.INSTRUMENT, Aspect.BOW, Aspect.MUTE)) {
      Set<String> left = InForce.union(last.get(aspect), walked.get(aspect));
      if (end >= 0) {
        // At a Fine the page says what it does there.
        left = InForce.union(left, page.get(end).get(aspect));
      }
      // The trade texts do not say what a number that is not played leaves in hand.
      hand.set(aspect, played ? left : InForce.union(hand.get(aspect), left));
    }
  }
}
