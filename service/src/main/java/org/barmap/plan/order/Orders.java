package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.pass.PassReader;
import org.barmap.plan.pass.Passes;
import org.barmap.plan.piece.Given;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/** Computes the order of play of one number. */
public final class Orders {
  private Orders() {}

  /**
   * Returns the order in which the bars of a number sound.
   *
   * @param number as written
   * @param spans its changes, looked up
   * @param repeatsAfterJump take repeats again after a D.C. or D.S.
   */
  public static OrderOfPlay of(WrittenNumber number, List<Span> spans, boolean repeatsAfterJump) {
    Given given = Given.of(number, spans);
    Choices choices = Choices.first();
    OrderOfPlay first = played(given, repeatsAfterJump, choices);
    List<PlanFinding> asked = Readings.of(first, choices, c -> played(given, repeatsAfterJump, c));
    return asked.isEmpty() ? first : first.withFindings(asked);
  }

  private static OrderOfPlay played(Given given, boolean repeatsAfterJump, Choices choices) {
    WrittenNumber number = given.number();
    List<Span> spans = given.spans();
    List<PlanFinding> findings = new ArrayList<>();
    List<Piece> pieces = Pieces.of(given, choices);
    List<Loop> loops = new ArrayList<>(FormReader.read(given, pieces, findings, choices));
    Map<Integer, Jumps.Jump> jumps = Jumps.read(pieces, findings);
    List<Loop> printed = List.copyOf(loops);
    // of a repeat that is out with all its bars nothing is left that could lead elsewhere
    loops.replaceAll(l -> l.out(pieces) ? l.bare() : l);
    Signs signs = new Signs();
    Counts counts = new Counts(number, pieces, loops, signs, choices);
    counts.apply(spans);
    counts.afterJumps(jumps, repeatsAfterJump);
    JumpsInside.ask(number, pieces, loops, jumps, signs, repeatsAfterJump, choices);
    OpenQuestions questions = new OpenQuestions(number, findings, choices);
    OpenLayer open = new OpenLayer(given, pieces, printed, loops, questions);
    open.apply(spans.stream().filter(s -> s.effects().rounds().isPresent()).toList());
    new CutForm(number, pieces, loops, signs, spans, choices).apply(jumps);
    Walk walk = new Walk(pieces, loops, jumps, signs, repeatsAfterJump);
    walk.run(findings);
    Passes passes = PassReader.over(walk.steps(), number, pieces, spans, around(loops), findings);
    int bars =
        walk.passed().stream().mapToInt(Piece::bars).sum()
            + passes.passed().stream().mapToInt(s -> s.piece().bars()).sum();
    List<OpenStretch> stretches = Held.places(open.held(), pieces, passes.steps());
    findings.addAll(Held.silent(open.held(), pieces, stretches));
    return new OrderOfPlay(
        number,
        pieces,
        passes.steps(),
        bars,
        walk.passed(),
        passes.passed(),
        printed,
        stretches,
        findings);
  }

  /** What is repeated; of a repeat with endings what stands before them, and each ending. */
  private static List<PassReader.Around> around(List<Loop> loops) {
    List<PassReader.Around> around = new ArrayList<>();
    for (Loop loop : loops) {
      int end = loop.parts().isEmpty() ? loop.end() : loop.parts().get(0).start() - 1;
      around.add(new PassReader.Around(loop.start(), end, loop.total()));
      loop.parts()
          .forEach(p -> around.add(new PassReader.Around(p.start(), p.end(), loop.total())));
    }
    return around;
  }
}
