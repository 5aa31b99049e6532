package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.barmap.plan.reference.Repeat.Kind;
import org.barmap.plan.reference.Walk.Step;
import org.barmap.plan.reference.Walked.Open;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.Walked.Sounding;
import org.barmap.plan.reference.print.WrittenBar;
import org.barmap.plan.reference.print.WrittenNumber;

/** One number, walked once, with one reading for each of its questions. */
record NumberWalk(
    WrittenNumber number,
    Resolved resolved,
    List<Step> steps,
    List<Open> open,
    Questions questions) {

  static NumberWalk of(
      WrittenNumber number, List<Change> changes, boolean repeatsAfterJump, Questions questions) {
    Resolved resolved = new Resolved(number, changes, questions);
    RepeatReader reader = new RepeatReader(number, resolved.opens, resolved.plays, questions);
    List<Repeat> printed = reader.read();
    Additions added = new Additions(number, printed, reader.stretches(), questions);
    added.cut(resolved.cuts);
    added.plays(resolved.plays, resolved.opens);
    Jumps jumps =
        new JumpReader(number, added.repeats(), questions)
            .read(repeatsAfterJump || resolved.withRepeats, resolved.without);
    List<Set<String>> shown = shownBeats(number, resolved);
    askPlayed(number, added.repeats(), jumps, shown, questions);
    Set<Integer> asMeter = SaidMeters.agreed(number, resolved);
    Cuts cuts = new Cuts(number, resolved.cuts, shown, added.repeats(), jumps, asMeter, questions);
    CutRules rules = new CutRules(number, cuts, questions);
    added.opens(resolved.opens, rules, jumps, resolved.inserts);
    List<Repeat> repeats = rules.repeats(added.repeats());
    Jumps left = rules.jumps(jumps);
    List<Insertion> insertions =
        Insertion.of(number, resolved.inserts, repeats, left, cuts, questions);
    List<Step> steps = new Walk(number, repeats, left, cuts, insertions).walk(questions);
    SaidMeters.ask(number, resolved, questions);
    askPassWords(number, repeats, resolved.passes, questions);
    askPasses(resolved, repeats, left, steps, questions);
    return new NumberWalk(number, resolved, steps, open(number, added, steps), questions);
  }

  /** A count that a change gives to a stretch which sounds again after a jump. */
  private static void askPlayed(
      WrittenNumber number,
      List<Repeat> repeats,
      Jumps jumps,
      List<Set<String>> shown,
      Questions questions) {
    if (jumps.isEmpty()) {
      return;
    }
    // A jump may leave by the coda, the Fine or a last ending before the stretch comes again, so
    // it is walked first.
    Questions none = new Questions(Map.of());
    Cuts nothing = new Cuts(number, List.of(), shown, repeats, jumps, Set.of(), none);
    List<Step> steps = new Walk(number, repeats, jumps, nothing, List.of()).walk(none);
    for (int k = 0; k < repeats.size(); k++) {
      Repeat repeat = repeats.get(k);
      boolean again =
          steps.stream()
              .anyMatch(
                  s ->
                      s.afterJump()
                          && (s.at() == repeat.from() || s.at() == repeat.to())
                          && jumps.replays(s.at()));
      if (repeat.kind() == Kind.PLAY_ONCE_AFTER_JUMP && again) {
        // The trade texts say nothing: a repeat is not taken after a jump, a count may be.
        int reading =
            questions.ask(
                "play-and-jump",
                number.asked(repeat.from()),
                "played several times, and once more after a jump",
                "once after the jump",
                "as often again");
        if (reading == 1) {
          repeats.set(k, repeat.kind(Kind.PLAY_AGAIN_AFTER_JUMP));
        }
      }
    }
  }

  /**
   * "2nd X only" where there is no second time. Source: trade.md, "2nd X only": what holds in one
   * pass of a repeat; of a pass that never comes it says nothing that could be followed.
   */
  private static void askPassWords(
      WrittenNumber number, List<Repeat> repeats, List<Resolved.At> said, Questions questions) {
    for (int at = 0; at < number.size(); at++) {
      int bar = at;
      if (said.stream().anyMatch(s -> s.from() <= bar && bar <= s.to())) {
        continue; // Source: common practice: what the director says of passes counts there.
      }
      if (number.bar(at).entry().isRest()) {
        continue; // Source: common practice: a rest is one each time.
      }
      Repeat inner = Cuts.innermost(repeats, at);
      for (String word : number.words(at)) {
        if (inner != null
            && inner.kind() != Kind.OPEN
            && !HandWords.meets(word, passes(inner, at), last(inner))) {
          questions.ask(
              "pass-word", number.asked(at), "words about a pass that never comes", "none");
        }
      }
    }
  }

  /** A pass that the director names and that never comes. */
  private static void askPasses(
      Resolved resolved, List<Repeat> repeats, Jumps jumps, List<Step> steps, Questions questions) {
    for (Resolved.At said : resolved.passes) {
      boolean sounds =
          steps.stream().anyMatch(s -> s.sounds() && s.at() >= said.from() && s.at() <= said.to());
      if (!sounds) {
        continue; // Source: common practice: of bars that are out nobody plays anything.
      }
      Optional<String> pass = said.change().text(Change.PASS);
      // Source: common practice: "last time" leads out of the repeat.
      Repeat around = Cuts.innermost(repeats, said.from());
      boolean out = around != null && around.times() > 1 && said.to() > around.to();
      boolean comes = pass.isEmpty() || (out && pass.get().equals("last"));
      for (int at = said.from(); at <= said.to() && !comes; at++) {
        Repeat inner = Cuts.innermost(repeats, at);
        int bar = at;
        // Source: common practice: in a repeat a time is counted there, and not over a jump.
        boolean inRepeat = inner != null && last(inner) > 1;
        comes =
            inRepeat
                ? passes(inner, at).stream()
                    .anyMatch(p -> HandWords.isPass(pass.get(), p, last(inner)))
                : jumps.replays(at) && steps.stream().anyMatch(s -> s.at() == bar && s.afterJump());
      }
      if (!comes) {
        questions.ask("pass-never", said.change().id(), "a pass that never comes", "every pass");
      }
    }
  }

  private static int last(Repeat repeat) {
    return repeat.times() > 1 ? repeat.lastPass() : 1;
  }

  private static List<Integer> passes(Repeat repeat, int at) {
    int block = repeat.block(at);
    if (block > 0 && repeat.times() > 1) {
      return repeat.endings().get(block - 1).passes();
    }
    return IntStream.rangeClosed(1, last(repeat)).boxed().toList();
  }

  private static List<Set<String>> shownBeats(WrittenNumber number, Resolved resolved) {
    PagePrint print = new PagePrint(number, resolved.settings);
    InForce state = new InForce();
    List<Set<String>> shown = new ArrayList<>();
    for (int at = 0; at < number.size(); at++) {
      print.arrive(state, at);
      shown.add(state.get(Aspect.BEATS));
    }
    return shown;
  }

  /**
   * Open stretches in which a bar sounds. Source: common practice: a vamp behind the Fine, or one
   * that is jumped over, is not waited in by anybody.
   */
  private static List<Open> open(WrittenNumber number, Additions added, List<Step> steps) {
    List<Open> open = new ArrayList<>();
    for (Repeat.Open stretch : added.opens()) {
      boolean sounds =
          // Source: common practice: bars added in the place of a vamp that is cut are no vamp.
          steps.stream()
              .filter(s -> s.sounds() && s.inserted().isEmpty())
              .anyMatch(s -> s.at() >= stretch.from() && s.at() <= stretch.to());
      if (sounds) {
        WrittenBar first = number.bar(stretch.from());
        WrittenBar last = number.bar(stretch.to());
        String says = stretch.kind() + " " + first.name() + "-" + last.name();
        open.add(new Open(stretch.kind(), place(first), place(last), says));
      }
    }
    return List.copyOf(open);
  }

  private static String place(WrittenBar bar) {
    return bar.entry().id() + "/" + bar.offset();
  }

  Playing playing() {
    if (resolved.out) {
      return Playing.OUT;
    }
    return resolved.tacet || number.tacet() ? Playing.TACET : Playing.PLAYED;
  }

  /** The bars as they sound, without what is in force. */
  List<Sounding> sounding() {
    return sounding(List.of());
  }

  /** The bars as they sound; states one for each step, or none. */
  List<Sounding> sounding(List<Map<Aspect, Set<String>>> states) {
    int[] times = new int[number.size()];
    List<Sounding> order = new ArrayList<>();
    for (int k = 0; k < steps.size(); k++) {
      Step step = steps.get(k);
      if (step.sounds()) {
        WrittenBar bar = number.bar(step.at());
        boolean inserted = !step.inserted().isEmpty();
        int time = inserted ? Math.max(1, times[step.at()]) : ++times[step.at()];
        order.add(
            new Sounding(
                bar.entry().id(),
                bar.offset(),
                inserted ? step.inserted() : bar.name(),
                inserted,
                step.left(),
                step.pass(),
                time,
                states.isEmpty() ? Map.of() : states.get(k)));
      }
    }
    return order;
  }
}
