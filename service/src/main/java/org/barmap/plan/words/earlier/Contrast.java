package org.barmap.plan.words.earlier;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.grammar.Bars;

/**
 * An order that says what it is not any more: "A three times, not twice", "last time I said 13 to
 * 20, it's 13 to 28".
 *
 * @param changes the earlier changes that may be meant
 */
record Contrast(List<ShowChange> changes, Speech speech, Rewording rewording) {

  Optional<List<Heard<ShowChange>>> read(Optional<String> number, String words) {
    Matcher said = Forms.SAID.matcher(words);
    if (said.matches()) {
      return corrected(number, said.group("order"), said.group("to"));
    }
    Matcher same = Forms.SAME.matcher(words);
    if (same.matches()) {
      return besides(number, same.group("order"));
    }
    Matcher bars = Forms.INSTEAD_BARS.matcher(words);
    if (bars.matches()) {
      return contrasted(number, bars.group("order"), bars.group("old"));
    }
    Matcher not = Forms.NOT_OLD.matcher(words);
    if (!not.matches()) {
      return Optional.empty();
    }
    String order = not.group("order");
    String old = not.group("old");
    return contrasted(number, order, old)
        .or(() -> not.group("instead") == null ? Optional.empty() : unknown(number, order, old));
  }

  /** Nothing known is of the bars in whose place something is said: it is not about them too. */
  private Optional<List<Heard<ShowChange>>> unknown(
      Optional<String> number, String order, String old) {
    boolean bars =
        number.flatMap(speech::bars).flatMap(b -> b.ends(old.strip())).isPresent()
            && Forms.ORDER.matcher(order).matches();
    List<Heard.Reading<ShowChange>> ways = bars ? ways(number, order) : List.of();
    return ways.isEmpty()
        ? Optional.empty()
        : Optional.of(
            List.of(
                new Heard.AskedBack<>(
                    order + " instead of " + old,
                    "Nothing of the kind was said of " + old + " so far. Is this meant by itself?",
                    List.of(),
                    ways)));
  }

  /** The one change of an order, where it is understood as one. */
  private Optional<ShowChange> understood(Optional<String> number, String order) {
    List<Heard<ShowChange>> heard = number.map(n -> speech.order(n, order)).orElse(List.of());
    return heard.size() == 1
        ? heard.get(0).reading().map(r -> r.changes().get(0)).filter(c -> c.kept().isEmpty())
        : Optional.empty();
  }

  private Optional<List<Heard<ShowChange>>> corrected(
      Optional<String> number, String order, String to) {
    Optional<ShowChange> old = understood(number, order);
    if (old.isEmpty()) {
      return Optional.empty();
    }
    List<ShowChange> same = changes.stream().filter(c -> alike(c, old.get())).toList();
    if (same.size() > 1) {
      return Optional.empty();
    }
    List<Heard<ShowChange>> heard = rewording.to(same.isEmpty() ? old.get() : same.get(0), to);
    if (heard.isEmpty()) {
      return Optional.empty();
    }
    // nothing of the kind was said here before: it is simply the new order
    return Optional.of(same.isEmpty() ? plain(number, old.get(), to) : heard);
  }

  private List<Heard<ShowChange>> plain(Optional<String> number, ShowChange old, String to) {
    String bars = old.where().map(w -> w.first()).orElse("");
    int at = bars.isEmpty() ? -1 : old.says().indexOf(bars);
    String verb = at < 0 ? old.kind() + " " : old.says().substring(0, at);
    return speech.order(number.orElse(""), verb + to);
  }

  private Optional<List<Heard<ShowChange>>> besides(Optional<String> number, String order) {
    Optional<ShowChange> made = understood(number, order);
    if (made.isEmpty()) {
      return Optional.empty();
    }
    List<ShowChange> near =
        changes.stream()
            .filter(c -> c.kind().equals(made.get().kind()) && touches(c, made.get()))
            .toList();
    List<Heard<ShowChange>> heard = speech.order(number.orElse(""), order);
    if (near.isEmpty()) {
      return Optional.of(heard);
    }
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    near.forEach(c -> Instead.of(c, heard.get(0)).reading().ifPresent(readings::add));
    heard
        .get(0)
        .reading()
        .map(r -> new Heard.Reading<>(r.says() + " Besides what was said.", r.changes()))
        .ifPresent(readings::add);
    return Optional.of(
        List.of(
            new Heard.AskedBack<>(
                order,
                "Is this in place of what was said before, or besides it?",
                List.of(),
                readings)));
  }

  /** Only where an earlier change is what it says it is not. */
  private Optional<List<Heard<ShowChange>>> contrasted(
      Optional<String> number, String order, String old) {
    boolean count = Forms.TIMES.matcher(old.strip()).matches();
    List<Heard<ShowChange>> found = new ArrayList<>();
    for (Heard.Reading<ShowChange> way : ways(number, order)) {
      ShowChange made = way.changes().get(0);
      changes.stream()
          .filter(c -> c.kind().equals(made.kind()))
          .filter(c -> count ? alike(c, made) : is(c, old))
          .forEach(
              c ->
                  found.add(
                      Instead.of(c, new Heard.Understood<>(order, made, sentence(made, way)))));
    }
    return found.size() == 1 ? Optional.of(List.copyOf(found)) : Optional.empty();
  }

  private String sentence(ShowChange made, Heard.Reading<ShowChange> way) {
    String start = speech.start(made.number());
    String says = way.says().startsWith(start) ? way.says() : start + way.says();
    return says.endsWith(".") ? says : says + ".";
  }

  /** What an order may come to, where that is one change. */
  private List<Heard.Reading<ShowChange>> ways(Optional<String> number, String order) {
    List<Heard<ShowChange>> heard = number.map(n -> speech.order(n, order)).orElse(List.of());
    if (heard.size() != 1) {
      return List.of();
    }
    List<Heard.Reading<ShowChange>> all =
        heard.get(0) instanceof Heard.AskedBack<ShowChange> asked
            ? asked.readings()
            : heard.get(0).reading().stream().toList();
    return all.stream()
        .filter(r -> r.changes().size() == 1 && r.changes().get(0).kept().isEmpty())
        .toList();
  }

  /** Whether an earlier change is of exactly these bars. */
  private boolean is(ShowChange change, String said) {
    Optional<Bars> bars = speech.bars(change.number());
    Optional<Bars.Ends> ends = bars.flatMap(b -> b.ends(said.strip()));
    return ends.isPresent()
        && change
            .where()
            .filter(w -> same(bars.get(), w, new Stretch(ends.get().first(), ends.get().last())))
            .isPresent();
  }

  private boolean alike(ShowChange one, ShowChange other) {
    return one.kind().equals(other.kind())
        && one.number().equals(other.number())
        && one.where().isPresent()
        && other.where().isPresent()
        && speech
            .bars(one.number())
            .filter(b -> same(b, one.where().get(), other.where().get()))
            .isPresent();
  }

  private static boolean same(Bars bars, Stretch one, Stretch other) {
    return bars.slot(one.first()).isPresent()
        && bars.slot(one.first()).equals(bars.slot(other.first()))
        && bars.slot(one.last()).equals(bars.slot(other.last()));
  }

  /** Whether one begins in, or right behind, the other. */
  private boolean touches(ShowChange one, ShowChange other) {
    Optional<Bars> bars = speech.bars(one.number());
    if (bars.isEmpty() || one.where().isEmpty() || other.where().isEmpty()) {
      return false;
    }
    int from = bars.get().slot(one.where().get().first()).orElse(-2);
    int to = bars.get().slot(one.where().get().last()).orElse(-2);
    int first = bars.get().slot(other.where().get().first()).orElse(-4);
    int last = bars.get().slot(other.where().get().last()).orElse(-4);
    return from <= last + 1 && first <= to + 1;
  }
}
