package org.barmap.plan;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.BarMap;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.Silenced;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Silence;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.check.BeatCuts;
import org.barmap.plan.check.Contradictions;
import org.barmap.plan.check.CutChecks;
import org.barmap.plan.check.HoldsOn;
import org.barmap.plan.check.OpenChecks;
import org.barmap.plan.check.ShorterMeter;
import org.barmap.plan.check.ShownBeats;
import org.barmap.plan.check.TempoAsked;
import org.barmap.plan.check.TrackChecks;
import org.barmap.plan.check.Twice;
import org.barmap.plan.mark.Held;
import org.barmap.plan.mark.KeyMarks;
import org.barmap.plan.mark.Needless;
import org.barmap.plan.mark.NumberMarks;
import org.barmap.plan.mark.Pencil;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.mark.TurnMarks;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Orders;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Clock;
import org.barmap.plan.pace.Keys;
import org.barmap.plan.pace.Length;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.page.Sides;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;
import org.barmap.plan.piece.Spans;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.ready.Hands;
import org.barmap.plan.ready.InHand;
import org.barmap.plan.ready.Readies;
import org.barmap.plan.ready.Stands;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.rest.Rests;
import org.barmap.plan.show.Already;
import org.barmap.plan.show.Parts;
import org.barmap.plan.show.Versions;
import org.barmap.plan.trap.Traps;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.Turns;

/** Computes a plan: a pure function of map, changes and settings. */
public final class Planner {

  private final PlanSettings settings;
  private final String part;
  private final Sides sides;
  private final List<PlanFinding> findings = new ArrayList<>();
  private final List<Performance> show = new ArrayList<>();
  private final List<List<Hands>> showHands = new ArrayList<>();
  private final List<NumberPlan> numbers = new ArrayList<>();
  private final List<LongRest> rests = new ArrayList<>();
  private final List<RunSheet> runSheet = new ArrayList<>();
  private InHand inHand;
  private final Pencil pencil = new Pencil();
  private final Ahead ahead;

  private Planner(BarMap map, PlanSettings settings) {
    this.settings = settings;
    this.part = map.book().part();
    this.sides = Sides.of(map, settings.turns().firstPage(), settings.turns().leaves());
    this.ahead = new Ahead(sides);
    this.inHand = new InHand(List.of(), part, settings.chair(), findings);
  }

  /** Computes a plan. Never fails: what can't be done is a finding. */
  public static Plan plan(BarMap map, ShowChanges changes, PlanSettings settings) {
    return new Planner(map, settings).run(map, changes);
  }

  private Plan run(BarMap map, ShowChanges changes) {
    List<WrittenNumber> written = WrittenNumber.all(map);
    List<ShowChange> held = Versions.holding(changes.active(), settings.showing(), findings);
    List<WrittenNumber> ordered = NumberOrder.ordered(written, held, findings);
    List<ShowChange> active = Parts.of(held, ordered, findings);
    Map<WrittenNumber, List<ShowChange>> byNumber = new IdentityHashMap<>();
    for (ShowChange change : active) {
      if (change.effects().order().isEmpty() && change.kept().isEmpty()) {
        NumberOrder.of(written, change, findings)
            .ifPresent(n -> byNumber.computeIfAbsent(n, k -> new ArrayList<>()).add(change));
      }
    }
    inHand = new InHand(written, part, settings.chair(), findings);
    Hands first = inHand.now();
    Links links = new Links(written, ordered, byNumber, findings);
    NumberMarks goesTo = new NumberMarks(written);
    for (WrittenNumber number : ordered) {
      one(number, links, byNumber.getOrDefault(number, List.of()), goesTo);
    }
    goesTo.mark(pencil, reordering(active));
    TurnHands hands =
        TurnHands.of(
            Turns.of(show, settings.turns(), sides),
            Readies.of(show, showHands, first, settings.chair().seconds(), settings.readySeconds()),
            map,
            show,
            settings.turns().turnSeconds());
    List<Turn> turns = hands.turns();
    new TurnMarks(written).mark(turns, pencil);
    findings.addAll(sides.findings());
    Unchecked unchecked = Unchecked.in(map, written, sides.gone());
    findings.addAll(unchecked.findings());
    List<NumberPlan> told = unchecked.numbers(numbers);
    List<RunSheet> lines = unchecked.runSheet(runSheet, told);
    findings.addAll(Already.of(active, pencil.marks(), findings));
    List<Turn> toldTurns = unchecked.turns(turns);
    List<LongRest> toldRests = unchecked.rests(rests);
    List<GetReady> ready = unchecked.ready(hands.ready());
    findings.addAll(Stands.missing(ready, settings.chair()));
    List<PencilMark> marks = unchecked.marks(pencil.marks(), turns);
    List<KeptNote> notes = KeptNote.of(written, active, findings);
    return new Plan(
        Plan.FORMAT,
        settings,
        told,
        toldTurns,
        toldRests,
        ready,
        marks,
        ahead.found(),
        lines,
        notes,
        Traps.of(show, new Traps.Decided(marks, toldTurns, toldRests, ready, findings)),
        findings,
        sides.places(),
        unchecked.pages(),
        Night.of(lines));
  }

  private static Optional<String> reordering(List<ShowChange> active) {
    return active.stream()
        .filter(c -> c.effects().order().isPresent())
        .map(c -> c.meta().id())
        .reduce((a, b) -> b);
  }

  private void one(
      WrittenNumber number, Links links, List<ShowChange> changes, NumberMarks goesTo) {
    List<Span> said = Twice.once(number, Spans.of(number, changes, findings), findings);
    List<Span> spans = BeatCuts.known(number, said, findings);
    findings.addAll(Contradictions.of(number, changes, spans));
    boolean again = changes.stream().anyMatch(c -> c.effects().course().repeatsAgain());
    OrderOfPlay order = Orders.of(number, spans, again || settings.repeatsAfterJump());
    List<Measure> measures = Clock.read(order.pieces(), spans, tempoBefore());
    Performance performance =
        new Performance(order, measures, Keys.read(order.pieces(), spans), links.after(order));
    Optional<Silenced> silent = Silenced.by(changes);
    if (silent.filter(s -> s.why() == Silence.CUT).isEmpty()) {
      links.mark(order, pencil);
      boolean waits = silent.isPresent() || number.tacet();
      goesTo.next(number, waits ? List.of() : order.steps());
    } else {
      goesTo.leftOut(number);
    }
    if (silent.isPresent() || number.tacet()) {
      silent.ifPresent(s -> pencil.silent(number, s.change()));
      silent(performance, silent);
    } else {
      findings.addAll(TrackChecks.of(order, changes, spans));
      findings.addAll(TempoAsked.of(order.number(), spans));
      pencil.whole(number, changes);
      played(performance, spans, changes.stream().anyMatch(c -> c.effects().course().track()));
    }
  }

  /** Where a number follows at once, the tempo of the one before holds on. */
  private OptionalDouble tempoBefore() {
    if (show.isEmpty() || !show.get(show.size() - 1).following().joined()) {
      return OptionalDouble.empty();
    }
    return show.get(show.size() - 1).lastTempo();
  }

  private void played(Performance performance, List<Span> spans, boolean track) {
    OrderOfPlay order = performance.order();
    findings.addAll(order.findings());
    findings.addAll(
        ShownBeats.asked(performance.number(), order.pieces(), performance.measures(), spans));
    findings.addAll(ShorterMeter.asked(performance.number(), spans));
    List<Hands> hands = inHand.through(performance, spans);
    Held held =
        new Held(
            hands.stream().map(Hands::instrument).toList(),
            hands.stream().map(Hands::bow).toList(),
            hands.stream().map(Hands::mute).toList());
    findings.addAll(
        CutChecks.of(performance, spans, held.instruments(), held.bows(), held.mutes(), sides));
    findings.addAll(HoldsOn.of(performance, spans));
    findings.addAll(Needless.told(performance, spans, held));
    findings.addAll(OpenChecks.of(order, sides));
    show.add(performance);
    showHands.add(hands);
    List<LongRest> long0 = Rests.of(performance, settings.longRestBars());
    rests.addAll(long0);
    ahead.number(performance, long0);
    ahead.changes(performance, spans);
    pencil.number(performance, spans, held);
    KeyMarks.mark(performance, spans, pencil);
    runSheet.add(RunSheets.played(performance, spans, hands, track));
    numbers.add(
        new NumberPlan(
            performance.number().label(),
            performance.number().title(),
            NumberPlan.State.PLAYED,
            Entries.of(order),
            written(performance.number()),
            Paces.of(performance),
            performance.played().rounded(),
            Paces.known(performance),
            performance.cut().rounded(),
            order.open(),
            performance.link(),
            performance.following(),
            HandsTold.of(performance, hands)));
  }

  private void silent(Performance performance, Optional<Silenced> silent) {
    WrittenNumber number = performance.number();
    boolean cut = silent.filter(s -> s.why() == Silence.CUT).isPresent();
    NumberPlan.State state = cut ? NumberPlan.State.CUT : NumberPlan.State.TACET;
    Length out = cut ? performance.played().plus(performance.cut()) : Length.none();
    if (!cut && !show.isEmpty()) {
      int last = show.size() - 1; // the tacet number lies between the two the player plays
      Performance before = show.get(last);
      show.set(last, before.withFollowing(before.following().withTacet()));
    }
    runSheet.add(RunSheets.silent(performance, state));
    numbers.add(
        new NumberPlan(
            number.label(),
            number.title(),
            state,
            List.of(),
            written(number),
            List.of(),
            Length.none(),
            Optional.empty(),
            out.rounded(),
            List.of(),
            performance.link(),
            performance.following(),
            List.of()));
  }

  private static int written(WrittenNumber number) {
    return number.bars().stream().mapToInt(b -> Piece.whole(b).bars()).sum();
  }
}
