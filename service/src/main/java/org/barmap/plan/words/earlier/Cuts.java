package org.barmap.plan.words.earlier;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.grammar.Bars;
import tools.jackson.databind.node.ObjectNode;

/** What was cut before says which bars are meant that are in again. */
final class Cuts {
  private static final Pattern ONE = phrase(".*\\bcut\\b.*");

  private Cuts() {}

  /** Returns the one of several readings that is exactly what was cut; else the question. */
  static Heard<ShowChange> restored(
      Heard.AskedBack<ShowChange> asked, List<ShowChange> before, Speech speech) {
    List<ShowChange> cuts =
        new ShowChanges(before).active().stream().filter(c -> c.kind().equals("cut")).toList();
    List<Heard.Reading<ShowChange>> those =
        asked.readings().stream().filter(r -> restores(r, cuts, speech)).toList();
    boolean restoring =
        asked.readings().stream()
            .allMatch(r -> r.changes().size() == 1 && r.changes().get(0).kind().equals("restore"));
    if (!restoring || those.size() != 1) {
      return asked;
    }
    Heard.Reading<ShowChange> one = those.get(0);
    ShowChange change = one.changes().get(0);
    return new Heard.Understood<>(
        asked.said(), change, speech.start(change.number()) + one.says() + ".");
  }

  /**
   * Asks which cut is meant where one is said to be off, tonight or in some shows, and the number
   * has several.
   */
  static Heard<ShowChange> oneOf(
      Heard.Understood<ShowChange> heard, List<ShowChange> before, Speech speech) {
    ShowChange back = heard.change();
    boolean all =
        back.kind().equals("restore")
            && !back.takesBack()
            && ONE.matcher(heard.said()).matches()
            && back.where().filter(w -> w.first().equals("start")).isPresent();
    List<ShowChange> cuts =
        new ShowChanges(all ? before : List.of())
            .active().stream()
                .filter(c -> c.kind().equals("cut") && c.number().equals(back.number()))
                .filter(c -> c.where().isPresent())
                .toList();
    if (cuts.size() < 2) {
      return heard;
    }
    String start = speech.start(back.number());
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (ShowChange cut : cuts) {
      Stretch where = cut.where().orElseThrow();
      ObjectNode tree =
          ChangesJson.tree(back).put("first", where.first()).put("last", where.last());
      ShowChange one = ChangesJson.readOne(tree);
      readings.add(
          new Heard.Reading<>(start + one.says() + one.meta().holds() + ".", List.of(one)));
    }
    readings.add(new Heard.Reading<>("All of them: " + heard.sentence(), List.of(back)));
    return new Heard.AskedBack<>(heard.said(), "Which cut is meant?", List.of(), readings);
  }

  private static boolean restores(
      Heard.Reading<ShowChange> reading, List<ShowChange> cuts, Speech speech) {
    return reading.changes().size() == 1
        && cuts.stream().anyMatch(c -> same(c, reading.changes().get(0), speech));
  }

  private static boolean same(ShowChange cut, ShowChange restore, Speech speech) {
    Optional<Stretch> one = cut.where();
    Optional<Stretch> other = restore.where();
    Optional<Bars> bars = speech.bars(cut.number());
    return cut.number().equals(restore.number())
        && one.isPresent()
        && other.isPresent()
        && bars.isPresent()
        && bars.get().slot(one.get().first()).equals(bars.get().slot(other.get().first()))
        && bars.get().slot(one.get().last()).equals(bars.get().slot(other.get().last()));
  }
}
