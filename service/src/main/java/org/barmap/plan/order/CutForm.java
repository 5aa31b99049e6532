package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntPredicate;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.Choices.Way;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question.Topic;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.piece.BarNames;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/** What cuts do to repeats and jumps; what can't be followed from the page is asked. */
final class CutForm {
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final List<Loop> loops;
  private final Signs signs;
  private final List<Span> cuts;
  private final Choices choices;
  private final BarNames names;

  CutForm(
      WrittenNumber number,
      List<Piece> pieces,
      List<Loop> loops,
      Signs signs,
      List<Span> spans,
      Choices choices) {
    this.number = number;
    this.pieces = pieces;
    this.loops = loops;
    this.signs = signs;
    this.cuts = spans.stream().filter(s -> s.effects().leavesOut()).toList();
    this.choices = choices;
    this.names = new BarNames(number);
  }

  void apply(Map<Integer, Jumps.Jump> jumps) {
    if (cuts.isEmpty()) {
      return;
    }
    for (int l = 0; l < loops.size(); l++) {
      Loop loop = loops.get(l);
      if (loop.total() < 2 || gone(loop.start(), loop.end())) {
        landing(loop);
        continue;
      }
      if (!signs.isCounted(loop)) {
        loops.set(l, cut(loop));
      } else {
        keepSigns(loop); // a change says how often what is left is played
      }
    }
    List<Integer> dropped = new ArrayList<>();
    jumps.forEach((at, jump) -> jump(at, jump, dropped));
    jumps.keySet().removeAll(dropped);
    if (!jumps.isEmpty()) {
      signs(jumps);
    }
  }

  private void keepSigns(Loop loop) {
    if (loop.parts().isEmpty()) {
      signs.keep(loop.end());
    }
    loop.parts().stream()
        .filter(p -> p.closes() && !gone(p.start(), p.end()))
        .forEach(p -> signs.keep(p.end()));
  }

  /** Of a repeat that a change takes away the last ending is played, wherever a cut lands. */
  private void landing(Loop loop) {
    int last = loop.parts().size() - 1;
    for (int p = 1; p < last; p++) {
      int start = loop.parts().get(p).start();
      if (over(loop.parts().get(0).start() - 1)
          && pieces.get(start - 1).endCut()
          && !startCut(start)) {
        tell(
            cutAt(start - 1, start - 1),
            Severity.DOUBT,
            "cut-in-ending",
            "The cut lands on an ending of bars "
                + range(loop)
                + " that is not the last, and the repeat is played once: mark which ending is"
                + " played");
      }
    }
  }

  private Loop cut(Loop loop) {
    boolean start = loop.start() > 0 && over(loop.start() - 1);
    int end = endTaken(loop);
    Loop now = loop;
    if (start) {
      now = startTaken(now);
    } else if (pieces.get(loop.start()).cut() && end < 0) {
      tell(
          cutAt(loop.start(), loop.start()),
          Severity.DOUBT,
          "cut-repeat",
          "The cut takes the start of the repeat of bars "
              + range(loop)
              + "; it now goes back to bar "
              + nameFrom(loop.start()));
    }
    if (end >= 0 && now.total() > 1) {
      now = endTaken(now, end);
    }
    if ((end < 0 || start)
        && now.parts().stream().anyMatch(p -> over(p.start() - 1) && !gone(p.start(), p.end()))) {
      int first = now.parts().get(0).start();
      tell(
          cutAt(first - 1, first),
          Severity.DOUBT,
          "cut-in-ending",
          "The cut takes the start of an ending of bars "
              + range(loop)
              + ": mark which time what is left of it is played");
    }
    return now;
  }

  /** Returns the piece at whose cut end a sign of a repeat stands; -1 for none. */
  private int endTaken(Loop loop) {
    if (loop.parts().isEmpty()) {
      return pieces.get(loop.end()).endCut() ? loop.end() : -1;
    }
    return loop.parts().stream()
        .filter(p -> p.closes() && pieces.get(p.end()).endCut())
        .mapToInt(Loop.Ending::end)
        .findFirst()
        .orElse(-1);
  }

  private Loop startTaken(Loop loop) {
    Span cut = cutAt(loop.start(), loop.start() - 1);
    Optional<List<Integer>> left = left(loop);
    String back = left.map(l -> "back to bar " + number.nameAt(l.get(0))).orElse("still repeated");
    List<Way> ways =
        List.of(
            new Way("repeated, " + back, counted(cut, left, loop.total())),
            new Way("played once", counted(cut, left, 1)));
    int way =
        ask(
            cut,
            "cut-repeat",
            "The cut takes the start of the repeat of bars "
                + range(loop)
                + left.map(l -> "; it now goes back to bar " + number.nameAt(l.get(0))).orElse(""),
            ways);
    return way == 1 ? loop.counted(1) : loop;
  }

  private Loop endTaken(Loop loop, int end) {
    Span cut = cutAt(end, end);
    Optional<List<Integer>> left = left(loop);
    boolean begins =
        !loop.parts().isEmpty()
            && cut.from() >= slot(loop.parts().get(0).start())
            && cut.from() <= lastSlot(loop.parts().get(0).end());
    String text =
        loop.parts().isEmpty()
            ? "The cut takes the repeat sign at the end of bar "
                + number.nameAt(lastSlot(end))
                + "; what is left of the repeat is played once. If it is still repeated, write the"
                + " sign before the cut"
            : "The cut "
                + (begins ? "starts in the first ending and takes" : "takes")
                + " the repeat back to bar "
                + number.nameAt(slot(loop.start()))
                + ": you go on after the cut without it. If it still holds, write the sign before"
                + " the cut";
    List<Way> ways = new ArrayList<>();
    ways.add(new Way("no repeat", counted(cut, left, 1)));
    if (loop.parts().isEmpty()) {
      ways.add(Way.of("out the last time only"));
    }
    ways.add(new Way("repeated, with the sign before the cut", counted(cut, left, loop.total())));
    int way = ask(cut, loop.parts().isEmpty() ? "cut-repeat" : "cut-in-ending", text, ways);
    if (way == 0) {
      return loop.counted(1);
    }
    if (way == 1 && loop.parts().isEmpty()) {
      for (int i = run(end, -1); i <= run(end, 1); i++) {
        signs.lastTime(i, loop);
      }
    }
    if (loop.parts().isEmpty()) {
      signs.keep(end);
    }
    loop.parts().stream()
        .filter(p -> p.closes() && pieces.get(p.end()).endCut())
        .forEach(p -> signs.keep(p.end()));
    return loop;
  }

  /**
   * The cut and how often what it leaves of a plain repeat is played say together what is meant.
   */
  private List<ShowChange> counted(Span cut, Optional<List<Integer>> left, int times) {
    if (left.isEmpty()) {
      return List.of();
    }
    ShowChange change = cut.change();
    ShowChange count =
        ShowChange.played(
            Meta.of(change.meta().id() + "-repeat"),
            change.number(),
            number.nameAt(left.get().get(0)),
            number.nameAt(left.get().get(1)),
            times);
    return List.of(change, count);
  }

  /** Returns the slots of the first and last written bar that a plain repeat has left. */
  private Optional<List<Integer>> left(Loop loop) {
    int first = loop.start();
    int last = loop.end();
    IntPredicate out = i -> pieces.get(i).cut() || pieces.get(i).added().isPresent();
    while (first <= last && out.test(first)) {
      first++;
    }
    while (last >= first && out.test(last)) {
      last--;
    }
    return first > last || !loop.parts().isEmpty()
        ? Optional.empty()
        : Optional.of(List.of(slot(first), lastSlot(last)));
  }

  private void jump(int at, Jumps.Jump jump, List<Integer> dropped) {
    int to = Math.max(at, jump.coda());
    if (gone(jump.target(), to)) {
      tell(
          cutAt(at, at),
          Severity.DOUBT,
          "cut-jump",
          "A D.C. or D.S. is cut with all that it goes back over: you play straight on");
      dropped.add(at); // a count of these bars keeps the signs at their end
      return;
    }
    if (pieces.get(at).endCut()) {
      keepAsked(
          at,
          "cut-jump",
          "A D.C. or D.S. is cut with its bar",
          "you don't go back",
          "you go back where the cut begins");
    }
    String back = pieces.get(at).endsWith(Navigation.DAL_SEGNO) ? "D.S." : "D.C.";
    boolean segno = back.equals("D.S.") && !pieces.get(at).endCut();
    if (segno && startCut(jump.target())) {
      String first = "bar " + nameFrom(jump.target());
      String text =
          "The bar of the segno is cut; the D.S. goes back to the first bar that is left, " + first;
      target(at, jump.target(), "cut-segno", text, "back to " + first, dropped);
    }
    boolean led = jump.toCoda() >= 0 && !pieces.get(jump.toCoda()).endCut();
    if (led && jump.coda() >= 0 && startCut(jump.coda())) {
      boolean all = gone(jump.coda(), pieces.size() - 1);
      String behind = "bar " + nameFrom(jump.coda());
      String text =
          all
              ? "The whole coda is cut and the "
                  + back
                  + " is not: you go back and end at the To Coda"
              : "The start of the coda is cut: from the To Coda you land after the cut, at "
                  + behind;
      String way = all ? "back, and the end is at the To Coda" : "from the To Coda to " + behind;
      target(at, jump.coda(), "cut-coda", text, way, dropped);
    }
  }

  /**
   * A jump that stays while the bar it leads to is cut; of a bar of which some beats are left they
   * are played, and nothing is asked.
   */
  private void target(
      int at, int target, String code, String text, String way, List<Integer> dropped) {
    Span cut = cutAt(target, target);
    if (!pieces.get(target).cut()) {
      tell(cut, Severity.DOUBT, code, text);
    } else if (ask(cut, code, text, List.of(Way.of(way), Way.of("straight on, you don't go back")))
        == 1) {
      dropped.add(at);
    }
  }

  private void signs(Map<Integer, Jumps.Jump> jumps) {
    boolean left =
        jumps.keySet().stream().anyMatch(at -> !pieces.get(at).endCut() || signs.kept(at));
    boolean coda =
        pieces.stream().anyMatch(p -> (left || !p.cut()) && p.startsWith(Navigation.CODA));
    for (int i = 0; i < pieces.size(); i++) {
      Piece piece = pieces.get(i);
      if (coda && piece.endCut() && piece.endsWith(Navigation.TO_CODA)) {
        keepAsked(
            i,
            "cut-to-coda",
            "The To Coda is cut",
            "you play on and never jump to the coda",
            "you go to the coda where the cut begins");
      }
      boolean fine = piece.endsWith(Navigation.FINE) && i < pieces.size() - 1;
      if (left && fine && piece.endCut() && jumps.values().stream().anyMatch(Jumps.Jump::fine)) {
        keepAsked(
            i,
            "cut-fine",
            "The Fine is cut",
            "you play to the end",
            "you end where the cut begins");
      }
    }
  }

  private void keepAsked(int piece, String code, String text, String out, String counts) {
    int way =
        ask(cutAt(piece, piece), code, text + ": " + out, List.of(Way.of(out), Way.of(counts)));
    if (way == 1) {
      signs.keep(piece);
    }
  }

  private int ask(Span cut, String code, String text, List<Way> ways) {
    PlanFinding finding = finding(cut, Severity.DOUBT, code, text);
    return choices.ask(new Choices.Asked(finding, Topic.REPEAT, names.at(cut.from()), ways));
  }

  private void tell(Span cut, Severity severity, String code, String text) {
    choices.tell(finding(cut, severity, code, text));
  }

  private PlanFinding finding(Span cut, Severity severity, String code, String text) {
    Optional<String> at = Optional.of(number.barAt(cut.from()).id());
    return PlanFinding.change(severity, at, code, text + ".", cut.change());
  }

  private boolean gone(int from, int to) {
    for (int i = from; i <= to; i++) {
      if (!pieces.get(i).cut()) {
        return false;
      }
    }
    return true;
  }

  private boolean startCut(int i) {
    return pieces.get(i).cut() || pieces.get(i).cutStart() > 0;
  }

  /** Whether a cut runs on over the barline behind a piece. */
  private boolean over(int i) {
    return i >= 0 && i + 1 < pieces.size() && pieces.get(i).endCut() && startCut(i + 1);
  }

  /** Returns the end of the row of cut pieces around one. */
  private int run(int piece, int step) {
    int i = piece;
    while (i + step >= 0 && i + step < pieces.size() && touched(i + step)) {
      i += step;
    }
    return i;
  }

  private boolean touched(int i) {
    return pieces.get(i).cut() || pieces.get(i).beatsCut() > 0;
  }

  /** Returns the cut that takes a piece, or else another one. */
  private Span cutAt(int piece, int other) {
    for (int i : new int[] {piece, other}) {
      for (Span cut : cuts) {
        if (i >= Pieces.first(pieces, cut) && i <= Pieces.last(pieces, cut)) {
          return cut;
        }
      }
    }
    return cuts.get(0);
  }

  private String range(Loop loop) {
    return number.nameAt(slot(loop.start())) + " to " + number.nameAt(lastSlot(loop.end()));
  }

  private int slot(int piece) {
    return Math.min(pieces.get(piece).slot(), number.slots() - 1);
  }

  private int lastSlot(int piece) {
    Piece p = pieces.get(piece);
    int last = p.added().isPresent() ? p.slot() - 1 : p.slot() + p.count() - 1;
    return Math.max(0, Math.min(last, number.slots() - 1));
  }

  private String nameFrom(int piece) {
    int i = piece;
    while (i < pieces.size() - 1 && pieces.get(i).cut()) {
      i++;
    }
    return number.nameAt(slot(i));
  }
}
