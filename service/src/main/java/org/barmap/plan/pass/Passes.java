package org.barmap.plan.pass;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.term.Pass;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Round;

/**
 * What holds in one pass only, laid over the order of play: bars left out in a pass, and bars in
 * which the player rests while the others play. The form stays as it is: a repeat whose bars are
 * left out in one pass is still taken.
 */
public final class Passes {
  private final List<Piece> pieces;
  private final List<PassedBars> rules;
  private final List<PlanFinding> findings;
  private final int[] heard;
  private final Map<Integer, List<PassedBars>> at = new HashMap<>();
  private final Map<Bar, Bar> resting = new IdentityHashMap<>();
  private final List<PlayedPiece> steps = new ArrayList<>();
  private final List<PlayedPiece> passed = new ArrayList<>();
  private final Set<PassedBars> met = Collections.newSetFromMap(new IdentityHashMap<>());
  private final Set<PassedBars> partly = Collections.newSetFromMap(new IdentityHashMap<>());

  private Passes(List<Piece> pieces, List<PassedBars> rules, List<PlanFinding> findings) {
    this.pieces = pieces;
    this.rules = rules;
    this.findings = findings;
    this.heard = new int[pieces.size()];
    for (PassedBars rule : rules) {
      for (int i = rule.first(); i <= rule.last(); i++) {
        at.computeIfAbsent(i, k -> new ArrayList<>(1)).add(rule);
      }
    }
  }

  /**
   * Lays rules over the order of play.
   *
   * @param walked the order of play without them
   * @param findings what no pass is for is added here
   */
  static Passes over(
      List<PlayedPiece> walked,
      List<Piece> pieces,
      List<PassedBars> rules,
      List<PlanFinding> findings) {
    Passes passes = new Passes(pieces, rules, findings);
    if (rules.isEmpty()) {
      passes.steps.addAll(walked);
    } else {
      passes.run(walked);
    }
    return passes;
  }

  /** Returns the order of play. */
  public List<PlayedPiece> steps() {
    return steps;
  }

  /** Returns what is left out in one pass, where it would have come. */
  public List<PlayedPiece> passed() {
    return passed;
  }

  /** Tells whether the pass a rule names comes. */
  boolean comes(PassedBars rule) {
    return met.contains(rule);
  }

  private void run(List<PlayedPiece> walked) {
    Times times = new Times(pieces, walked);
    int[] total = new int[pieces.size()];
    walked.forEach(s -> total[s.index()] = Math.max(total[s.index()], s.pass()));
    rules.stream()
        .filter(r -> r.span().isPresent())
        .filter(r -> r.rule().pass().filter(p -> times.partly(r, p)).isPresent())
        .forEach(partly::add);
    meet(walked, total, times);
    for (PlayedPiece step : walked) {
      PlayedPiece now = step;
      boolean out = false;
      for (PassedBars rule : at.getOrDefault(step.index(), List.of())) {
        if (!met.contains(rule) || besides(rule, step, times)) {
          continue; // a pass that never comes leaves nothing out
        }
        boolean here = holds(rule.rule().pass(), step, total[step.index()]);
        switch (rule.rule().does()) {
          case CUT -> {
            now = here ? rule.without(now) : now;
            out |= here && now.piece().cut();
          }
          case NOT -> now = here ? rest(now) : now;
          case ONLY -> now = here ? now : rest(now);
          case PUT -> now = here ? rule.with(now) : now;
          case STOP -> now = here ? rest(rule.with(now)) : now;
        }
      }
      if (out) {
        passed.add(now);
      } else {
        steps.add(now.counted(++heard[now.index()]));
      }
    }
  }

  /** What is said of a pass of bars in a repeat says nothing of those beside it. */
  private boolean besides(PassedBars rule, PlayedPiece step, Times times) {
    return partly.contains(rule) && times.once(step.index());
  }

  /** Finds the rules whose pass comes; of the others the player is told. */
  private void meet(List<PlayedPiece> walked, int[] total, Times times) {
    Map<PassedBars, Integer> most = new IdentityHashMap<>();
    for (PlayedPiece step : walked) {
      for (PassedBars rule : at.getOrDefault(step.index(), List.of())) {
        if (step.piece().rest() && rule.span().isEmpty() && notes(rule)) {
          continue; // words over notes don't speak of the rests behind them
        }
        if (!besides(rule, step, times) && holds(rule.rule().pass(), step, total[step.index()])) {
          met.add(rule);
        }
        most.merge(rule, Math.max(step.round().of(), total[step.index()]), Math::max);
      }
    }
    for (PassedBars rule : rules) {
      if (!met.contains(rule)) {
        rule.neverMet(pieces, most.getOrDefault(rule, 0)).ifPresent(findings::add);
      }
    }
  }

  private boolean notes(PassedBars rule) {
    return pieces.subList(rule.first(), rule.last() + 1).stream().anyMatch(p -> !p.rest());
  }

  /**
   * Tells whether a step is the pass that is meant.
   *
   * @param total how often its bars are played in all
   */
  public static boolean holds(Optional<Pass> meant, PlayedPiece step, int total) {
    if (meant.isEmpty()) {
      return true;
    }
    Pass pass = meant.get();
    Round round = step.round();
    if (pass.equals(Pass.AFTER_JUMP)) {
      return round.afterJump();
    }
    int time = round.of() > 0 ? round.time() : step.pass();
    int of = round.of() > 0 ? round.of() : total;
    return pass.equals(Pass.LAST) ? time == of : pass.nth().orElse(0) == time;
  }

  private PlayedPiece rest(PlayedPiece step) {
    if (step.piece().rest()) {
      return step;
    }
    Bar bar = resting.computeIfAbsent(step.piece().bar(), Passes::restFor);
    return step.resting(step.piece().in(bar));
  }

  private static Bar restFor(Bar bar) {
    return bar.toBuilder().content(Content.REST).build();
  }
}
