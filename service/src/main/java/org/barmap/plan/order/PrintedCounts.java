package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.barmap.map.Severity;
import org.barmap.map.Word;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.Choices.Way;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question.Topic;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.piece.Given;
import org.barmap.plan.piece.OpenWord;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PrintedTimes;

/**
 * How often repeats are played by what is printed at them: the sign "3X" or a word, at the backward
 * repeat or over the first bar. Counts that don't agree, and those that stand elsewhere, are asked.
 */
final class PrintedCounts {
  private final Given given;
  private final List<Piece> pieces;
  private final Choices choices;

  /** Pieces over which a count stands that has been read. */
  private final BitSet read = new BitSet();

  /** Pieces at whose sign "3X" one has been read. */
  private final BitSet signs = new BitSet();

  PrintedCounts(Given given, List<Piece> pieces, Choices choices) {
    this.given = given;
    this.pieces = pieces;
    this.choices = choices;
  }

  /**
   * Returns how often a repeat without endings is played.
   *
   * @param begun a sign that begins it stands at its start
   */
  int plain(int start, int end, boolean begun) {
    List<PrintedTimes> counts = new ArrayList<>();
    at(end, counts);
    if (begun || start == end) {
      at(start, counts);
    }
    TreeSet<Integer> totals = totals(counts);
    if (totals.size() < 2) {
      return totals.isEmpty() ? 2 : totals.first();
    }
    List<Integer> ways = firstFirst(totals, counts.get(0).times());
    String text =
        counts.size() < 2 || counts.stream().allMatch(counts.get(0)::equals)
            ? "\"" + counts.get(0).text() + "\" may mean " + in(ways)
            : "Two counts stand at this repeat: " + in(ways);
    List<Way> said = ways.stream().map(t -> often(t, start, end)).toList();
    return ways.get(ask(start, "times-printed", text, said));
  }

  /**
   * Returns how often a repeat with endings is played, where more is printed than its endings.
   *
   * @param begun a sign that begins it stands at its start
   * @param outer the sign at the end of its last ending belongs to a repeat around it
   */
  Loop withEndings(Loop loop, boolean begun, boolean outer) {
    List<PrintedTimes> counts = new ArrayList<>();
    for (Loop.Ending part : loop.parts()) {
      if (part.closes() || !outer) {
        at(part.end(), counts);
      }
    }
    if (begun) {
      at(loop.start(), counts);
    }
    TreeSet<Integer> totals = totals(counts);
    totals.remove(loop.total());
    boolean fits = counts.stream().allMatch(c -> c.times() == loop.total());
    if (totals.isEmpty() || fits || loop.total() < 2) {
      return loop;
    }
    List<Way> ways = new ArrayList<>();
    ways.add(Way.of("as the endings say, " + loop.total() + " times in all"));
    totals.forEach(t -> ways.add(Way.of(says(t))));
    String text =
        "The endings make it "
            + loop.total()
            + " times in all, and \""
            + counts.get(0).text()
            + "\" is printed at them";
    int way = ask(loop.start(), "times-and-endings", text, ways);
    return way == 0 ? loop : loop.counted(List.copyOf(totals).get(way - 1));
  }

  /** Counts that stand neither at the start nor at the end of a repeat, nor by themselves. */
  void elsewhere(List<Loop> loops) {
    for (int i = 0; i < pieces.size(); i++) {
      int at = i;
      int times = pieces.get(i).endSigns() ? pieces.get(i).signBar().times().orElse(1) : 1;
      if (times > 1
          && !signs.get(i)
          && loops.stream().noneMatch(l -> l.start() == at && l.end() == at)
          && !said(pieces.get(i).slot())) {
        elsewhere(i, new PrintedTimes(times, true, times + "X"), loops);
        continue;
      }
      Optional<PrintedTimes> count = word(i);
      if (count.isPresent() && !read.get(i) && !open(i) && !said(pieces.get(i).slot())) {
        elsewhere(i, count.get(), loops);
      }
    }
  }

  /** What a change counts at the bar under a word, the word doesn't undo. */
  private boolean said(int slot) {
    return given.spans().stream()
        .anyMatch(s -> Counts.counts(s) && s.from() <= slot && s.to() >= slot);
  }

  private void elsewhere(int i, PrintedTimes count, List<Loop> loops) {
    int end = i;
    while (end + 1 < pieces.size()
        && pieces.get(end + 1).bar().id().equals(pieces.get(i).bar().id())) {
      end++;
    }
    int around = -1;
    for (int l = 0; l < loops.size(); l++) {
      boolean inner = around < 0 || loops.get(l).length() < loops.get(around).length();
      around = loops.get(l).holds(i) && loops.get(l).total() > 1 && inner ? l : around;
    }
    List<Way> ways = new ArrayList<>();
    if (around >= 0) {
      Loop loop = loops.get(around);
      boolean plain = loop.parts().isEmpty();
      ways.add(
          new Way(
              "the whole repeat " + count.times() + " times in all",
              plain ? played(loop.start(), loop.end(), count.times()) : List.of()));
    }
    ways.add(new Way("this bar " + count.times() + " times", played(i, end, count.times())));
    ways.add(new Way("as printed, without the count", played(i, end, 1)));
    String text =
        "\"" + count.text() + "\" stands here without repeat signs of its own; what is it said of";
    int way = ask(i, "times-elsewhere", text, ways);
    if (around >= 0 && way == 0) {
      loops.set(around, loops.get(around).counted(count.times()));
    } else if (way == ways.size() - 2) {
      loops.add(new Loop(i, end, count.times(), List.of(), Optional.empty()));
    }
  }

  /** A word over a bar that is a vamp belongs to the vamp. */
  private boolean open(int i) {
    return pieces.get(i).bar().words().stream()
        .map(Word::text)
        .anyMatch(w -> OpenWord.read(w).isPresent());
  }

  /** Adds what is printed at a piece: the sign, and the words over its entry. */
  private void at(int i, List<PrintedTimes> counts) {
    Piece piece = pieces.get(i);
    signs.set(i);
    piece
        .signBar()
        .times()
        .ifPresent(t -> counts.add(new PrintedTimes(Math.max(1, t), true, t + "X")));
    int first = i;
    while (first > 0
        && !pieces.get(first).first()
        && pieces.get(first - 1).bar().id().equals(piece.bar().id())) {
      first--;
    }
    if (!open(first)) {
      word(first).ifPresent(counts::add);
    }
    read.set(first);
  }

  private Optional<PrintedTimes> word(int i) {
    Piece piece = pieces.get(i);
    return piece.first() && !piece.bar().words().isEmpty()
        ? PrintedTimes.read(piece.bar())
        : Optional.empty();
  }

  private static TreeSet<Integer> totals(List<PrintedTimes> counts) {
    TreeSet<Integer> totals = new TreeSet<>();
    for (PrintedTimes count : counts) {
      totals.add(count.times());
      if (!count.sure()) {
        totals.add(count.times() + 1);
      }
    }
    return totals;
  }

  private static List<Integer> firstFirst(TreeSet<Integer> totals, int first) {
    List<Integer> ways = new ArrayList<>(List.of(first));
    totals.stream().filter(t -> t != first).forEach(ways::add);
    return ways;
  }

  private static String in(List<Integer> ways) {
    return String.join(" or ", ways.stream().map(w -> w + " times in all").toList());
  }

  private static String says(int times) {
    return times == 1 ? "once" : times + " times in all";
  }

  private Way often(int times, int start, int end) {
    return new Way(says(times), played(start, end, times));
  }

  private List<ShowChange> played(int start, int end, int times) {
    WrittenNumber number = given.number();
    Piece last = pieces.get(end);
    if (pieces.get(start).added().isPresent() || last.added().isPresent()) {
      return List.of();
    }
    String first = number.nameAt(pieces.get(start).slot());
    return List.of(
        ShowChange.played(
            Meta.of("play-" + first),
            number.label(),
            first,
            number.nameAt(last.slot() + last.count() - 1),
            times));
  }

  private int ask(int piece, String code, String text, List<Way> ways) {
    Piece at = pieces.get(piece);
    PlanFinding finding = PlanFinding.form(Severity.DOUBT, at.bar().id(), code, text + "?");
    String about = at.bar().label().orElse(String.valueOf(at.bar().number() + at.offset()));
    return choices.ask(new Choices.Asked(finding, Topic.REPEAT, about, ways));
  }
}
