package org.barmap.plan.reference;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.barmap.plan.reference.Repeat.Ending;
import org.barmap.plan.reference.Repeat.Kind;
import org.barmap.plan.reference.print.WrittenBar;
import org.barmap.plan.reference.print.WrittenNumber;

/** Finds the repeats of a number with a finger on the page, from the first bar to the last. */
final class RepeatReader {

  /** A vamp longer than this is not one that a word over its first bar speaks of for sure. */
  static final int LONGEST_VAMP = 16;

  private static final Pattern NO_OPEN = Pattern.compile("\\bno (vamp|safety)\\b");
  private static final Pattern OPEN = Pattern.compile("\\b(vamp|safety)\\b");

  private final WrittenNumber number;
  private final List<Resolved.At> once;
  private final Questions questions;
  private final List<Repeat> found = new ArrayList<>();
  private final Deque<Integer> open = new ArrayDeque<>();
  private int behindLast;

  /** Printed open stretches, filled while reading. */
  private final List<Repeat.Open> stretches = new ArrayList<>();

  private final List<Resolved.At> said;

  /** Reads a number; what changes hold open, or play, says what a printed word means. */
  RepeatReader(
      WrittenNumber number, List<Resolved.At> said, List<Resolved.At> plays, Questions questions) {
    this.number = number;
    this.once = plays.stream().filter(p -> p.change().whole("times", 1) == 1).toList();
    this.said = said;
    this.questions = questions;
  }

  List<Repeat.Open> stretches() {
    return stretches;
  }

  List<Repeat> read() {
    int at = 0;
    while (at < number.size()) {
      if (number.repeatStartsAt(at)) {
        open.push(at);
      }
      if (!number.endingAt(at).isEmpty()) {
        at = readEndings(at);
      } else {
        if (number.repeatEndsAt(at)) {
          int from = start(at);
          found.add(new Repeat(from, at, List.of(), times(from, at), Kind.PRINTED));
          behindLast = at + 1;
        }
        at++;
      }
    }
    for (int from : open) {
      // Source: oracles.md, rejected there: a forward repeat never closed.
      questions.ask("repeat-unclosed", name(from), "a repeat begins and never ends", "play on");
    }
    readMarkedBars();
    readOpenWords();
    found.sort(Comparator.comparingInt(Repeat::from).thenComparingInt(r -> -r.to()));
    return found;
  }

  /** Where the backward repeat at the end of a bar leads. */
  private int start(int at) {
    if (!open.isEmpty()) {
      // Source: oracles.md, Order of play, nested repeats: to the nearest start still open.
      return open.pop();
    }
    if (behindLast == 0) {
      // Source: oracles.md, Order of play, "1 2:‖ 3 4": to the beginning.
      return 0;
    }
    // The trade texts say nothing of a second one.
    int reading =
        questions.ask(
            "repeat-start-missing",
            name(at),
            "no forward repeat before this backward repeat",
            "from behind the repeat before it",
            "from the beginning");
    return reading == 0 ? Math.min(behindLast, at) : 0;
  }

  // Source: barmap-format.md, times: at a backward repeat, or a bar marked "3X".
  private int times(int from, int at) {
    int atEnd = number.bar(at).entry().times().orElse(0);
    boolean begun = number.repeatStartsAt(from);
    int atStart = begun || from == at ? number.bar(from).entry().times().orElse(0) : 0;
    if (atEnd > 0 && atStart > 0 && atEnd != atStart) {
      int reading =
          questions.ask("times-two", name(at), "two counts at one repeat", "at its end", "start");
      return reading == 0 ? atEnd : atStart;
    }
    // Source: common practice: "3X" may stand over the first bar of its repeat.
    // Source: oracles.md, Order of play: without a count a repeat is played twice.
    return atEnd > 0 ? atEnd : atStart > 0 ? atStart : 2;
  }

  private int readEndings(int first) {
    List<Ending> endings = new ArrayList<>();
    int at = first;
    int counted = 0;
    boolean clean = true;
    while (at < number.size() && !number.endingAt(at).isEmpty()) {
      List<Integer> passes = number.endingAt(at);
      int from = at;
      while (at + 1 < number.size() && number.endingAt(at + 1).equals(passes)) {
        clean &= !number.repeatEndsAt(at) && !number.repeatStartsAt(at + 1);
        at++;
      }
      endings.add(new Ending(from, at, passes, number.repeatEndsAt(at)));
      for (int pass : passes) {
        // Source: oracles.md, rejected there: overlapping endings, endings not starting at 1.
        counted = counted + 1 == pass ? pass : Integer.MIN_VALUE / 2;
      }
      at++;
    }
    if (counted < 1) {
      questions.ask("ending-order", name(first), "the endings do not count 1, 2, 3", "as read");
      skipEndings(at);
      return at;
    }
    clean &= endings.stream().skip(1).noneMatch(e -> number.repeatStartsAt(e.from()));
    if (!clean || number.repeatStartsAt(first)) {
      questions.ask("ending-inside", name(first), "a repeat sign inside an ending", "as read");
      skipEndings(at);
      return at;
    }
    addWithEndings(first, endings, counted);
    behindLast = at;
    return at;
  }

  /** What is behind endings that can't be followed is read as if they had closed one repeat. */
  private void skipEndings(int behind) {
    if (!open.isEmpty()) {
      open.pop();
    }
    behindLast = behind;
  }

  private void addWithEndings(int first, List<Ending> endings, int counted) {
    int lone = endings.size() == 1 ? 1 : 0;
    Ending last = endings.get(endings.size() - 1);
    for (Ending ending : endings) {
      boolean goesOn = ending == last && lone == 0 && ending.passes().size() == 1;
      if (!ending.back() && !goesOn) {
        // Source: oracles.md, rejected there: a first ending without a backward repeat.
        questions.ask(
            "ending-no-back", name(ending.from()), "an ending without a way back", "go on");
        skipEndings(endings.get(endings.size() - 1).to() + 1);
        return;
      }
    }
    // Source: common practice: a last ending of several passes goes back after all but the last.
    if (lone == 0 && last.back() && last.passes().size() == 1) {
      questions.ask("ending-last-back", name(last.to()), "the last ending goes back too", "go on");
    }
    if (lone == 1 && last.to() == number.size() - 1) {
      // Source: common practice: behind a first ending comes the second, and here is none.
      questions.ask("ending-alone", name(last.to()), "nothing behind a first ending", "end there");
    }
    int from = start(first);
    if (from >= first) {
      questions.ask("ending-no-body", name(first), "endings with nothing before them", "as read");
      return;
    }
    for (Ending ending : endings) {
      int said = number.bar(ending.to()).entry().times().orElse(0);
      if (said > 0 && said != counted + lone) {
        questions.ask(
            "times-endings", name(ending.to()), "a count that is not the endings'", "the endings'");
      }
    }
    // Source: common practice: behind a first ending alone, what follows is the second.
    found.add(new Repeat(from, first - 1, endings, counted + lone, Kind.PRINTED));
  }

  private void readMarkedBars() {
    for (WrittenBar bar : number.bars()) {
      int times = bar.last() ? bar.entry().times().orElse(0) : 0;
      int at = bar.at();
      int entryFrom = at - bar.entry().count() + 1;
      if (times < 2 || number.repeatEndsAt(at) || startsRepeat(entryFrom)) {
        continue;
      }
      boolean inside = found.stream().anyMatch(r -> r.holds(at));
      if (inside || bar.entry().count() > 1 || !number.endingAt(at).isEmpty()) {
        questions.ask(
            "times-inside", name(at), "a count in the middle of a stretch", "it says nothing");
      } else {
        // Source: barmap-format.md, times: a bar marked "3X".
        found.add(new Repeat(at, at, List.of(), times, Kind.PRINTED));
      }
    }
  }

  private boolean startsRepeat(int at) {
    return found.stream()
        .anyMatch(r -> r.from() == at && r.endings().isEmpty() && number.repeatStartsAt(at));
  }

  private void readOpenWords() {
    for (int at = 0; at < number.size(); at++) {
      for (String word : number.words(at)) {
        String said = word.toLowerCase(Locale.ROOT);
        // Source: decided: "no vamp" is none.
        if (OPEN.matcher(said).find() && !NO_OPEN.matcher(said).find()) {
          openAt(at, said.contains("safety") ? "safety" : "vamp");
        }
      }
    }
  }

  private void openAt(int at, String kind) {
    for (int k = 0; k < found.size(); k++) {
      Repeat repeat = found.get(k);
      boolean plain = repeat.endings().isEmpty();
      int round = plain ? repeat.to() : repeat.endings().get(0).to();
      boolean fits = (plain || twoEndings(repeat)) && round - at < LONGEST_VAMP;
      if (repeat.from() == at && fits) {
        // Source: trade.md, vamp and safety; common practice: the word stands where they begin,
        // and with two endings it goes round with the first and out through the second (case
        // open-17; this reader asked about every repeat with endings before).
        if (stretches.stream().anyMatch(s -> s.from() <= round && at <= s.to())) {
          // Source: decided: open stretches that share bars are asked, printed ones as well.
          questions.ask("open-overlap", name(at), "a vamp inside a vamp", "both");
        }
        found.set(k, plain ? repeat.open() : repeat.kind(Kind.OPEN));
        stretches.add(new Repeat.Open(kind, at, round));
        return;
      }
    }
    // Source: common practice: a director who holds the bar of the word open says which bars are
    // meant; a safety where a vamp is printed, or the other way round, does not say that.
    if (said.stream()
        .anyMatch(s -> s.change().kind().equals(kind) && s.from() <= at && s.to() >= at)) {
      return;
    }
    if (once.stream().anyMatch(o -> o.from() == at)) {
      return; // Source: common practice (case rehearsal-03-08): "no vamp" takes the word back.
    }
    // Source: decided: a printed VAMP belongs to its own bars or is asked.
    int reading =
        questions.ask(
            "vamp-print",
            name(at),
            "which bars the printed " + kind + " means",
            "none",
            "its bar alone",
            "the rest it stands over");
    if (reading > 0) {
      int to = reading == 1 ? at : at + number.bar(at).entry().count() - 1;
      stretches.add(new Repeat.Open(kind, at, to));
    }
  }

  /** A first ending to go round with, and one way out: a second ending, or what follows. */
  private static boolean twoEndings(Repeat repeat) {
    List<Ending> endings = repeat.endings();
    return endings.size() <= 2
        && endings.get(0).back()
        && endings.get(0).passes().equals(List.of(1))
        && repeat.lastPass() == 2;
  }

  private String name(int at) {
    return number.asked(at);
  }
}
