package org.barmap.plan.turn;

import static org.barmap.plan.turn.Candidates.id;

import java.util.Optional;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Following;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.pace.Gap;

/** Says each way to get over a turn in plain words. */
final class AdviceText {
  private AdviceText() {}

  static Advice here(Timeline line, Gap gap, int arrives) {
    boolean later = gap.from() >= line.start(arrives) - Figures.SAME;
    boolean stop = gap.held() && gap.to() - gap.from() < Figures.SAME;
    String where = later ? "in the rest on the new page" : "in the rest at the end of the page";
    return plain(
        Advice.Kind.TURN_HERE,
        id(line, later ? arrives : arrives - 1),
        stop
            ? "Turn in the stop at the end of the page, as long as the director waits; nothing is"
                + " counted there."
            : "Turn " + where + ", " + spoken(gap) + ".");
  }

  /** Between two numbers. */
  static Advice between(Timeline before, BetweenNumbers time, Verdict verdict) {
    String says = when(time, verdict) + ".";
    return plain(Advice.Kind.TURN_HERE, id(before, before.events().size() - 1), says)
        .at(verdict == Verdict.TIME ? 0 : TurnCosts.USUAL.quick())
        .chosen(true);
  }

  private static String when(BetweenNumbers time, Verdict verdict) {
    Following following = time.following();
    if (following.apart()) {
      return "Turn between the numbers" + (following.tacet() > 0 ? ": " + following.says() : "");
    }
    if (verdict == Verdict.TIME && following.seconds().isEmpty()) {
      return "Turn in the rest around the end of the number";
    }
    String wait =
        following
            .seconds()
            .map(s -> ", some " + Figures.plain(s) + " s after the last note")
            .orElse("");
    return switch (following.link()) {
      case APPLAUSE_SEGUE -> "Turn in the applause; " + following.says() + wait;
      case UNKNOWN -> "Turn at once after the last note; " + following.says();
      default -> "Turn at once after the last note; " + following.says() + wait;
    };
  }

  static Advice looseCopy(Timeline line, int arrives) {
    return plain(
            Advice.Kind.LOOSE_COPY,
            id(line, arrives - 1),
            "A loose copy of page "
                + line.events().get(arrives).page()
                + " on the stand beside page "
                + line.events().get(arrives - 1).page()
                + ", so that nothing is turned here.")
        .at(TurnCosts.USUAL.looseCopy());
  }

  /** The player stays where the page is open, over a stretch of another one. */
  static Advice stay(Timeline line, int at, int from, int to, int bars, double cost) {
    int page = line.events().get(at).page();
    String over = "page " + line.events().get(from).page();
    String what =
        bars == 0
            ? over + " has rests only: " + counted(line, from, to)
            : "play " + BarsSaid.of(line, from, to, bars) + " of " + over + " from memory";
    return advice(
            Advice.Kind.STAY,
            id(line, at),
            bars,
            0,
            id(line, from),
            id(line, to),
            "Stay on page " + page + ", " + what + ".")
        .at(cost);
  }

  private static String counted(Timeline line, int from, int to) {
    int bars = 0;
    for (int i = from; i <= to; i++) {
      bars += line.events().get(i).piece().bars();
    }
    return "count " + Saying.many(bars, "bar") + " and go on";
  }

  static Advice early(Timeline line, Gap gap, int from, int to, int bars) {
    int after = gap.lastStep() >= from && from > 0 ? from - 1 : gap.lastStep();
    String rest =
        "early, in the rest before bar " + BarsSaid.name(line, from) + " (" + spoken(gap) + ")";
    return memorised(Advice.Kind.TURN_EARLY, line, after, from, to, bars, rest);
  }

  static Advice late(Timeline line, Gap gap, int from, int to, int bars) {
    String rest =
        "late, in the rest after bar " + BarsSaid.name(line, to) + " (" + spoken(gap) + ")";
    return memorised(Advice.Kind.TURN_LATE, line, to, from, to, bars, rest);
  }

  private static Advice memorised(
      Advice.Kind kind, Timeline line, int after, int from, int to, int bars, String when) {
    return advice(
        kind,
        id(line, after),
        bars,
        0,
        id(line, from),
        id(line, to),
        "Turn " + when + ", and play " + BarsSaid.of(line, from, to, bars) + " from memory.");
  }

  static Advice writeOut(Timeline line, Gap gap, int from, int to, int bars) {
    String where = "foot of page " + line.events().get(from - 1).page();
    String rest = "after it (" + spoken(gap) + ")";
    return copied(
        Advice.Kind.WRITE_OUT, line, to, from, to, bars, slip(line, from, to, bars, where, rest));
  }

  static Advice writeOutBefore(Timeline line, Gap gap, int from, int to, int bars) {
    int after = from > 0 ? from - 1 : from;
    String where = "head of page " + line.events().get(to + 1).page();
    String rest = "before it (" + spoken(gap) + ")";
    return copied(
        Advice.Kind.WRITE_OUT_BEFORE,
        line,
        after,
        from,
        to,
        bars,
        slip(line, from, to, bars, where, rest));
  }

  private static String slip(Timeline line, int from, int to, int bars, String where, String rest) {
    return "Write "
        + BarsSaid.of(line, from, to, bars)
        + " out on a slip at the "
        + where
        + " and turn in the rest "
        + rest
        + ".";
  }

  static Advice foldOut(Timeline line, Gap gap, int from, int to, int bars, int systems) {
    return copied(
        Advice.Kind.FOLD_OUT,
        line,
        to,
        from,
        to,
        bars,
        "A fold-out of the next "
            + (systems == 1 ? "system" : Saying.many(systems, "system"))
            + ", "
            + BarsSaid.of(line, from, to, bars)
            + ", carries you to a rest of "
            + spoken(gap)
            + ".");
  }

  private static Advice copied(
      Advice.Kind kind, Timeline line, int after, int from, int to, int bars, String says) {
    return advice(kind, id(line, after), 0, bars, id(line, from), id(line, to), says);
  }

  static Advice leaveOut(Timeline line, int arrives) {
    return plain(
            Advice.Kind.LEAVE_OUT,
            id(line, arrives - 1),
            "No gap in reach: turn while playing, or leave notes out. Which hand is free is yours to"
                + " decide.")
        .at(TurnCosts.USUAL.leaveOut());
  }

  private static Advice plain(Advice.Kind kind, Optional<String> after, String says) {
    return advice(kind, after, 0, 0, Optional.empty(), Optional.empty(), says);
  }

  private static Advice advice(
      Advice.Kind kind,
      Optional<String> after,
      int memorise,
      int bars,
      Optional<String> first,
      Optional<String> last,
      String says) {
    return new Advice(
        kind,
        after,
        memorise > 0 ? Optional.of(memorise) : Optional.empty(),
        bars > 0 ? Optional.of(bars) : Optional.empty(),
        first,
        last,
        0,
        false,
        says);
  }

  /** Says how long a gap is; never a length for a hold. */
  static String spoken(Gap gap) {
    boolean counted = gap.length().beats().filter(b -> b > 0).isPresent();
    String bars = Saying.many(gap.length().bars(), "bar");
    String beats =
        counted
            ? gap.length().beats().map(b -> Saying.many(b, "beat")).orElse(bars)
            : gap.held() && gap.length().bars() == 0 ? "a stop" : bars;
    String seconds =
        !counted && gap.held()
            ? ""
            : gap.length().seconds().map(s -> ", " + time(s)).orElse(", no tempo known");
    return beats + seconds + (gap.held() && counted ? ", and a hold" : "");
  }

  private static String time(double seconds) {
    long whole = Math.round(seconds);
    return seconds < 60 ? Figures.tenths(seconds) + " s" : whole / 60 + " min " + whole % 60 + " s";
  }
}
