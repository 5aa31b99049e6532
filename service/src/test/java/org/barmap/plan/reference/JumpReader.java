package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.Navigation;
import org.barmap.plan.reference.Jumps.Jump;
import org.barmap.plan.reference.print.WrittenBar;
import org.barmap.plan.reference.print.WrittenNumber;

/**
 * Finds what D.C., D.S., segno, coda and fine of a number mean together. Source where no other is
 * named: oracles.md, Order of play and "Rejected there".
 */
final class JumpReader {

  private static final Pattern WITH =
      Pattern.compile("with repeats?|with rep\\.|con rep|con ripetizion|avec repr|mit wiederh");

  private final WrittenNumber number;
  private final List<Repeat> repeats;
  private final Questions questions;
  private final List<Integer> segnos;
  private final List<Integer> codas;
  private final List<Integer> toCodas;
  private final List<Integer> fines;

  JumpReader(WrittenNumber number, List<Repeat> repeats, Questions questions) {
    this.number = number;
    this.repeats = repeats;
    this.questions = questions;
    this.segnos = number.places(Navigation.SEGNO);
    this.codas = number.places(Navigation.CODA);
    this.toCodas = number.places(Navigation.TO_CODA);
    this.fines = number.places(Navigation.FINE);
  }

  Jumps read(boolean repeatsAfterJump, List<Integer> without) {
    List<Jump> jumps = new ArrayList<>();
    boolean with = repeatsAfterJump;
    for (WrittenBar bar : number.bars()) {
      boolean dc = bar.has(Navigation.DA_CAPO);
      boolean ds = bar.has(Navigation.DAL_SEGNO);
      if (without.contains(bar.at())) {
        continue;
      }
      if (dc || ds) {
        // Source: decided: "with repeats" is understood; common practice in print.
        with |= says(bar.at(), WITH);
        jump(bar.at(), dc, ds, with).ifPresent(jumps::add);
      }
    }
    if (jumps.isEmpty() && !without.isEmpty()) {
      // Source: common practice: without its D.C. one plays straight on, past Fine and To Coda.
      return Jumps.NONE;
    }
    if (jumps.isEmpty()) {
      askLonely();
      return Jumps.NONE;
    }
    if (jumps.size() > 1) {
      ask("jump-several", jumps.get(1).at(), "more than one D.C. or D.S.", "each once, as met");
    }
    Jump first = jumps.get(0);
    int toCoda = toCoda(first);
    int coda = toCoda < 0 ? -1 : coda(first, toCoda);
    int fine = fine(first, toCoda, coda);
    if (coda < 0) {
      toCoda = -1;
    }
    askRepeats(first, toCoda, fine, with);
    return new Jumps(List.copyOf(jumps), toCoda, coda, fine, with);
  }

  private Optional<Jump> jump(int at, boolean dc, boolean ds, boolean with) {
    boolean segno = ds;
    if (dc && ds) {
      segno = ask("jump-both", at, "D.C. and D.S. at one place", "the D.S.", "the D.C.") == 0;
    }
    int target = 0;
    if (segno) {
      List<Integer> before = segnos.stream().filter(s -> s <= at).toList();
      if (before.isEmpty()) {
        boolean none = segnos.isEmpty();
        ask(none ? "segno-none" : "segno-behind", at, "a D.S. without a segno before it", "go on");
        return Optional.empty();
      }
      if (segnos.size() > 1) {
        ask("segno-several", at, "more than one segno", "the last one before the D.S.");
      }
      target = before.get(before.size() - 1);
    }
    boolean early = false;
    for (Repeat repeat : repeats) {
      if (repeat.holds(at) && counts(repeat) && !doneAt(repeat, at)) {
        // The trade texts know a jump at the end of a repeat or in its last ending only.
        early =
            ask("jump-in-repeat", at, "a jump inside a repeat", "in the last pass", "at once") == 1;
      }
      int to = target;
      // Source: trade.md, Fine: the end after the jump, so nobody comes to the end of the repeat.
      boolean ends = fines.stream().anyMatch(f -> f >= to && f <= repeat.to());
      // Source: common practice: who lands in the last ending has no repeat before him.
      ends |= !repeat.endings().isEmpty() && doneAt(repeat, to);
      if (with && target > repeat.from() && target <= repeat.to() && segno && !ends) {
        ask("segno-in-repeat", at, "a segno inside a repeat, with repeats", "on to its end");
      }
    }
    return Optional.of(new Jump(at, target, segno, early));
  }

  /** A repeat that is played once now has nothing to wait for. */
  private static boolean counts(Repeat repeat) {
    return repeat.times() > 1 || repeat.kind() == Repeat.Kind.OPEN;
  }

  private static boolean doneAt(Repeat repeat, int at) {
    return repeat.endings().isEmpty()
        ? at == repeat.bodyTo()
        : repeat.block(at) == repeat.endings().size();
  }

  private void askLonely() {
    if (!toCodas.isEmpty()) {
      ask("tocoda-lonely", toCodas.get(0), "To Coda, and nothing leads back before it", "go on");
    }
    for (int fine : fines) {
      if (fine < number.size() - 1) {
        ask("fine-lonely", fine, "a Fine, and nothing leads back before it", "go on");
      }
    }
  }

  private int toCoda(Jump jump) {
    // Source: barmap-format.md, Conventions: to the coda where a to-coda stands before the jump.
    List<Integer> before = toCodas.stream().filter(t -> t <= jump.at()).toList();
    if (before.isEmpty()) {
      if (!toCodas.isEmpty()) {
        ask("tocoda-unmet", toCodas.get(0), "the To Coda stands behind the jump", "none");
      } else if (!codas.isEmpty()) {
        ask("coda-alone", codas.get(0), "a coda, and no To Coda", "none");
      } else if (says(jump.at(), Pattern.compile("al coda"))) {
        ask("coda-none", jump.at(), "al Coda, and no coda", "none");
      }
      return -1;
    }
    if (toCodas.size() > 1) {
      ask("tocoda-several", before.get(1 % before.size()), "more than one To Coda", "the first");
    }
    int toCoda = before.get(0);
    boolean skipped =
        repeats.stream().anyMatch(r -> r.block(toCoda) > 0 && r.block(toCoda) < r.endings().size());
    if (toCoda < jump.target() || skipped) {
      ask("tocoda-unmet", toCoda, "the To Coda is not met after the jump", "none");
    }
    return toCoda;
  }

  private int coda(Jump jump, int toCoda) {
    if (codas.isEmpty()) {
      ask("coda-none", toCoda, "To Coda, and no coda", "go on");
      return -1;
    }
    if (codas.size() > 1) {
      int reading = ask("coda-several", codas.get(1), "more than one coda", "the last", "the next");
      List<Integer> behind = codas.stream().filter(c -> c > jump.at()).toList();
      if (reading == 1 && !behind.isEmpty()) {
        return behind.get(0);
      }
    }
    int coda = codas.get(codas.size() - 1);
    if (coda <= jump.at()) {
      ask("coda-before", coda, "the coda stands before the jump", "there");
    }
    return coda;
  }

  private int fine(Jump jump, int toCoda, int coda) {
    if (fines.isEmpty()) {
      if (says(jump.at(), Pattern.compile("al fine"))) {
        ask("fine-none", jump.at(), "al Fine, and no Fine", "to the end");
      }
      return -1;
    }
    if (fines.size() > 1) {
      ask("fine-several", fines.get(1), "more than one Fine", "the first");
    }
    int fine = fines.get(0);
    boolean last = fine == number.size() - 1;
    if (toCoda >= 0 && fine < coda) {
      String why = "a Fine and a coda after one jump";
      if (ask("fine-or-coda", fine, why, "the one met first", "the coda") == 1) {
        return -1;
      }
    } else if (fine > jump.at() && !last) {
      ask("fine-unmet", fine, "bars behind the Fine never sound", "end there");
    } else if (fine < jump.target()) {
      ask("fine-unmet", fine, "the Fine is not met after the jump", "to the end");
    }
    boolean skipped =
        repeats.stream().anyMatch(r -> r.block(fine) > 0 && r.block(fine) < r.endings().size());
    if (skipped && fine <= jump.at()) {
      ask("fine-unmet", fine, "the Fine stands in an ending that is not played", "to the end");
    }
    return fine;
  }

  /** In a vamp, which is left once, and in a last ending there is one time to go on from. */
  private void askRepeats(Jump jump, int toCoda, int fine, boolean with) {
    for (Repeat repeat : repeats) {
      boolean several = with && repeat.times() > 1;
      boolean last = !repeat.endings().isEmpty() && doneAt(repeat, toCoda);
      if (several && toCoda >= 0 && repeat.holds(toCoda) && !last) {
        ask("tocoda-in-repeat", toCoda, "To Coda inside a repeat, with repeats", "first time");
      }
      if (several && fine >= 0 && fine <= jump.at() && repeat.closesAt(fine)) {
        ask("fine-in-repeat", fine, "Fine at the end of a repeat, with repeats", "last time");
      }
    }
  }

  private boolean says(int at, Pattern pattern) {
    WrittenBar bar = number.bar(at);
    return bar.entry().words().stream()
        .anyMatch(w -> pattern.matcher(w.text().toLowerCase(Locale.ROOT)).find());
  }

  private int ask(String key, int at, String why, String... readings) {
    return questions.ask(key, number.asked(at), why, readings);
  }
}
