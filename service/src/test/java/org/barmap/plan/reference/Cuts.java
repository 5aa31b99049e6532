package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import org.barmap.map.Meter;
import org.barmap.plan.reference.Resolved.At;
import org.barmap.plan.reference.print.WrittenNumber;

/** Which beats of which bars are out, in which passes; the same cut twice counts once. */
public final class Cuts {

  /** Beats out of a bar, from 0 to its length; of a bar without a known meter, 0 to 1. */
  private record Piece(int at, double from, double to, List<String> passes) {}

  /** What is left out of a bar that sounds, in the meter's lower figure. */
  public record Left(double atStart, double atEnd, double inside) {
    /** Nothing is out. */
    public static final Left NOTHING = new Left(0, 0, 0);
  }

  private final WrittenNumber number;
  private final List<Piece> pieces = new ArrayList<>();

  Cuts(
      WrittenNumber number,
      List<At> cuts,
      List<Set<String>> shownBeats,
      List<Repeat> repeats,
      Jumps jumps,
      Set<Integer> asMeter,
      Questions questions) {
    this.number = number;
    for (At cut : cuts) {
      if (cut.change().has(Change.PASS) && outAnyway(cut, cuts)) {
        continue;
      }
      if (understood(cut, shownBeats, asMeter, questions)) {
        add(cut, passes(cut, cuts, repeats, jumps, questions));
      }
    }
    asMeter.forEach(at -> pieces.removeIf(p -> p.at() == at));
  }

  /** Source: common practice: bars that are out every time have no pass to be cut in. */
  private static boolean outAnyway(At cut, List<At> cuts) {
    for (int at = cut.from(); at <= cut.to(); at++) {
      int bar = at;
      if (cuts.stream()
          .filter(c -> !c.change().has(Change.PASS))
          .filter(c -> c.from() < bar || (c.from() == bar && c.fromBeat().isEmpty()))
          .noneMatch(c -> c.to() > bar || (c.to() == bar && c.toBeat().isEmpty()))) {
        return false;
      }
    }
    return true;
  }

  private boolean understood(
      At cut, List<Set<String>> shown, Set<Integer> asMeter, Questions questions) {
    boolean first =
        asMeter.contains(cut.from())
            || understood(cut, cut.from(), cut.fromBeat(), shown, questions);
    return first
        && (asMeter.contains(cut.to())
            || understood(cut, cut.to(), cut.toBeat(), shown, questions));
  }

  private boolean understood(
      At cut, int at, OptionalInt beat, List<Set<String>> shown, Questions questions) {
    if (beat.isEmpty()) {
      return true;
    }
    String id = cut.change().id();
    if (number.bar(at).entry().meter().isEmpty()) {
      // Source: decided: beat cuts without a known meter are refused.
      questions.ask("cut-beat-meter", id, "a beat of a bar without a meter", "without it");
      return false;
    }
    int beats = number.bar(at).entry().meter().get().beats();
    if (!shown.get(at).contains(Integer.toString(beats))) {
      // Source: decided: "10 beat 2" in 6/8 in two is asked.
      questions.ask("cut-beat-shown", id, "beats of the meter, or as shown", "the meter's");
    }
    if (beat.getAsInt() < 1 || beat.getAsInt() > beats) {
      questions.ask("address", id, "the bar has no such beat", "without it");
      return false;
    }
    return true;
  }

  private List<String> passes(
      At cut, List<At> cuts, List<Repeat> repeats, Jumps jumps, Questions questions) {
    List<String> said = cut.change().text(Change.PASS).stream().toList();
    if (said.isEmpty()) {
      return said;
    }
    // Source: trade.md, "2nd X only" and "last time only": what holds in one pass of a repeat.
    long around =
        repeats.stream().filter(r -> r.holds(cut.from())).filter(r -> r.times() > 1).count();
    Repeat inner = innermost(repeats, cut.from());
    boolean there =
        inner != null
            && said.stream().allMatch(p -> p.equals("last") || isPassOf(p, inner.times()));
    if (around == 0
        && allTwice(cut, repeats, jumps)
        && List.of("1", "2", "last").containsAll(said)) {
      // Source: common practice: without repeats the second time is the one after the D.C. or D.S.
      return said;
    }
    boolean last = said.equals(List.of("last"));
    there &= last || comes(cut, cuts, inner, said.get(0));
    for (int at = cut.from(); at <= cut.to(); at++) {
      // Source: common practice: "last time" leads out of the repeat, another time does not.
      there &= last || innermost(repeats, at) == inner;
    }
    if (around != 1 || !there) {
      questions.ask("cut-pass", number.asked(cut.from()), "a pass that is not there", "every pass");
      return List.of();
    }
    return said;
  }

  private static boolean allTwice(At cut, List<Repeat> repeats, Jumps jumps) {
    boolean last = cut.change().text(Change.PASS).filter("last"::equals).isPresent();
    for (int at = cut.from(); at <= cut.to(); at++) {
      boolean leadsOut = last && at > cut.from() && jumps.onlyAfter(at);
      if (innermost(repeats, at) != null || !(jumps.twice(at) || leadsOut)) {
        return false;
      }
    }
    return true;
  }

  /** Whether a bar of a cut that is not out anyway comes in a pass. */
  private static boolean comes(At cut, List<At> cuts, Repeat inner, String pass) {
    for (int at = cut.from(); at <= cut.to() && inner != null; at++) {
      At one = new At(cut.change(), at, at, cut.fromBeat(), cut.toBeat());
      int block = inner.block(at);
      boolean here =
          block == 0
              || (block > 0
                  && inner.endings().get(block - 1).passes().stream()
                      .anyMatch(p -> pass.equals(Integer.toString(p))));
      if (here && !outAnyway(one, cuts)) {
        return true;
      }
    }
    return false;
  }

  private static boolean isPassOf(String said, int times) {
    return said.matches("\\d{1,3}")
        && Integer.parseInt(said) >= 1
        && Integer.parseInt(said) <= times;
  }

  static Repeat innermost(List<Repeat> repeats, int at) {
    Repeat inner = null;
    for (Repeat repeat : repeats) {
      if (repeat.holds(at)
          && (inner == null || repeat.to() - repeat.from() <= inner.to() - inner.from())) {
        inner = repeat;
      }
    }
    return inner;
  }

  // Source: plan-format.md: first and last bar of a cut are both out; so are first and last beat.
  private void add(At cut, List<String> passes) {
    for (int at = cut.from(); at <= cut.to(); at++) {
      double from =
          at == cut.from() && cut.fromBeat().isPresent() ? cut.fromBeat().getAsInt() - 1 : 0;
      double to = at == cut.to() && cut.toBeat().isPresent() ? cut.toBeat().getAsInt() : length(at);
      pieces.add(new Piece(at, from, to, passes));
    }
  }

  double length(int at) {
    return number.bar(at).entry().meter().map(Meter::beats).orElse(1);
  }

  private static boolean counts(Piece piece, int pass, int times) {
    return piece.passes().isEmpty()
        || piece.passes().contains(Integer.toString(pass))
        || (pass == times && piece.passes().contains("last"));
  }

  /** What is out of a bar in a pass, by eighths of a beat: plain to see, slow enough. */
  private boolean[] out(int at, int pass, int times) {
    boolean[] out = new boolean[(int) (length(at) * 8)];
    for (Piece piece : pieces) {
      if (piece.at() == at && counts(piece, pass, times)) {
        for (int k = (int) (piece.from() * 8); k < piece.to() * 8; k++) {
          out[k] = true;
        }
      }
    }
    return out;
  }

  boolean gone(int at, int pass, int times) {
    for (boolean out : out(at, pass, times)) {
      if (!out) {
        return false;
      }
    }
    return true;
  }

  Left left(int at, int pass, int times) {
    boolean[] out = out(at, pass, times);
    int first = 0;
    while (first < out.length && out[first]) {
      first++;
    }
    int last = out.length;
    while (last > first && out[last - 1]) {
      last--;
    }
    int inside = 0;
    for (int k = first; k < last; k++) {
      inside += out[k] ? 1 : 0;
    }
    return new Left(first / 8.0, (out.length - last) / 8.0, inside / 8.0);
  }

  /** Whether the beginning of a bar is out in every pass. */
  boolean startOut(int at) {
    return at >= 0 && at < number.size() && out(at, 0, -1)[0];
  }

  /** Whether the end of a bar is out in every pass. */
  boolean endOut(int at) {
    boolean[] out = at >= 0 && at < number.size() ? out(at, 0, -1) : new boolean[1];
    return out[out.length - 1];
  }

  /** Whether a bar is out as a whole in every pass. */
  boolean gone(int at) {
    return gone(at, 0, -1);
  }

  /** Whether one cut runs on over the barline behind a bar, in every pass. */
  boolean over(int at) {
    return endOut(at) && startOut(at + 1);
  }

  /** Whether a cut in one pass runs on over the barline behind a bar. */
  boolean overInOnePass(int at) {
    return pieces.stream()
        .filter(p -> p.at() == at && !p.passes().isEmpty() && p.to() == length(at))
        .anyMatch(
            p ->
                pieces.stream()
                    .anyMatch(
                        q -> q.at() == at + 1 && q.from() == 0 && q.passes().equals(p.passes())));
  }

  boolean inOnePass(int at) {
    return pieces.stream().anyMatch(p -> p.at() == at && !p.passes().isEmpty());
  }

  /** Whether the end of a bar is out in each of some passes. */
  boolean endOutIn(int at, List<Integer> passes, int times) {
    return passes.stream()
        .allMatch(
            p -> {
              boolean[] out = out(at, p, times);
              return out[out.length - 1];
            });
  }
}
