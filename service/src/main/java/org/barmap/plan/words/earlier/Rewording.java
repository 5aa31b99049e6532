package org.barmap.plan.words.earlier;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.words.grammar.Bars;

/**
 * An earlier change with other bars, or another count: said anew in the words it has, so that it is
 * read back like any other.
 */
record Rewording(Speech speech) {

  /** Returns it with another first bar, or with other bars where both are named. */
  List<Heard<ShowChange>> starts(ShowChange change, String to) {
    if (stretch(change, to)) {
      return bars(change, to);
    }
    return change
        .where()
        .filter(w -> named(change, to))
        .map(w -> bars(change, Saying.range(to, w.last())))
        .orElse(List.of());
  }

  /**
   * Returns it with another last bar.
   *
   * @param how the word before the bar; a mark behind "to" is where one lands
   */
  List<Heard<ShowChange>> ends(ShowChange change, String how, String to) {
    Optional<Stretch> where = change.where();
    boolean through = how.matches("(?i)with|through");
    return where.isPresent() && named(change, to)
        ? bars(change, where.get().first() + (through ? " through " : " to ") + to)
        : List.of();
  }

  /** Returns it with other bars, another count, another cue, or as another thing. */
  List<Heard<ShowChange>> to(ShowChange change, String said) {
    String to = said.strip();
    Optional<Stretch> where = change.where();
    Matcher times = Forms.TIMES.matcher(to);
    Matcher sort = Forms.SORT.matcher(to);
    Matcher cue = Forms.CUE.matcher(to);
    if (times.matches() && where.isPresent()) {
      return order(change, "play " + range(where.get()) + " " + times.group(1));
    }
    if (sort.matches() && where.isPresent()) {
      return order(change, sort.group("sort") + " " + range(where.get()) + pass(change));
    }
    if (cue.matches() && where.isPresent() && change.kind().matches("vamp|hold|gp")) {
      String place = change.kind().equals("vamp") ? range(where.get()) : where.get().first();
      String left = change.says().replaceFirst("^.*?(?=, out |$)", "");
      String till = " till " + cue.group("cue");
      return order(change, change.kind() + " " + place + pass(change) + till + left);
    }
    return stretch(change, to) || named(change, to) && single(change)
        ? bars(change, to)
        : List.of();
  }

  private static String pass(ShowChange change) {
    return change.effects().rounds().flatMap(r -> r.pass()).map(p -> " " + p.says()).orElse("");
  }

  private static boolean single(ShowChange change) {
    return change.where().filter(w -> w.first().equals(w.last())).isPresent();
  }

  private static String range(Stretch where) {
    return Saying.range(where.first(), where.last());
  }

  /** Returns it as it was, once more. */
  List<Heard<ShowChange>> again(ShowChange change) {
    return order(change, change.says() + change.meta().holds());
  }

  private List<Heard<ShowChange>> bars(ShowChange change, String to) {
    String says = change.says() + change.meta().holds();
    String old = change.where().map(Rewording::range).orElse("");
    String bare = change.where().map(w -> Saying.one(w.first())).orElse("");
    String part = !old.isEmpty() && says.contains(old) ? old : bare;
    int at = part.isEmpty() ? -1 : says.indexOf(part);
    return at < 0
        ? List.of()
        : order(change, says.substring(0, at) + to + says.substring(at + part.length()));
  }

  private boolean stretch(ShowChange change, String to) {
    return speech
        .bars(change.number())
        .flatMap(b -> b.ends(to))
        .filter(e -> !e.first().equals(e.last()))
        .isPresent();
  }

  private boolean named(ShowChange change, String to) {
    Optional<Bars> bars = speech.bars(change.number());
    return bars.filter(b -> b.slot(to).isPresent() || b.ends(to).isPresent()).isPresent();
  }

  /** Returns what an order in the place of a change comes to; nothing where it is no change. */
  List<Heard<ShowChange>> order(ShowChange earlier, String order) {
    List<Heard<ShowChange>> heard = speech.order(earlier.number(), order);
    boolean changes =
        heard.stream()
            .flatMap(h -> h.reading().stream())
            .flatMap(r -> r.changes().stream())
            .anyMatch(c -> c.kept().isEmpty());
    boolean asks = heard.stream().anyMatch(h -> h instanceof Heard.AskedBack);
    if (!changes && !asks) {
      return List.of();
    }
    List<Heard<ShowChange>> all = new ArrayList<>();
    boolean placed = false;
    for (Heard<ShowChange> each : heard) {
      all.add(placed ? each : Instead.of(earlier, each));
      placed = true;
    }
    return all;
  }
}
