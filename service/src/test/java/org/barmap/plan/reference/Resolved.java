package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import org.barmap.map.Navigation;
import org.barmap.plan.reference.print.Address;
import org.barmap.plan.reference.print.WrittenBar;
import org.barmap.plan.reference.print.WrittenNumber;

/** The changes of one number with their bars found; what can't be found is asked and left out. */
final class Resolved {

  /**
   * A change with its place.
   *
   * @param from its first bar
   * @param to its last bar; the same as the first where the kind has none
   * @param fromBeat the first beat that is out, absent for the whole bar
   * @param toBeat the last beat that is out, absent for the whole bar
   */
  record At(Change change, int from, int to, OptionalInt fromBeat, OptionalInt toBeat) {}

  private final WrittenNumber number;
  private final Questions questions;
  final List<At> cuts = new ArrayList<>();
  final List<At> plays = new ArrayList<>();
  final List<At> opens = new ArrayList<>();
  final List<At> inserts = new ArrayList<>();
  final List<At> settings = new ArrayList<>();
  final List<At> passes = new ArrayList<>();

  /** Bars at whose D.C. or D.S. one goes straight on. */
  final List<Integer> without = new ArrayList<>();

  boolean withRepeats;
  boolean tacet;
  boolean out;

  Resolved(WrittenNumber number, List<Change> changes, Questions questions) {
    this.number = number;
    this.questions = questions;
    for (Change change : changes) {
      sort(change);
    }
    askSameBar();
    // Source: trade.md, tacet: the music is there; cut: it is not.
    if (tacet && out) {
      questions.ask("tacet-and-cut", number.label(), "tacet and cut both", "cut");
    }
  }

  private void sort(Change change) {
    switch (change.kind()) {
      case "tacet" -> tacet = true;
      case "cut-number" -> out = true;
      case "cut" -> find(change, "first", "last", true).ifPresent(cuts::add);
      case "play" -> find(change, "first", "last", false).ifPresent(plays::add);
      case "vamp", "safety" -> find(change, "first", "last", false).ifPresent(opens::add);
      case "insert" -> {
        String key = change.has("before") ? "before" : "after";
        find(change, key, key, false).ifPresent(inserts::add);
      }
      case "only", "not" -> find(change, "first", "last", false).ifPresent(passes::add);
      case "restore" -> find(change, "first", "last", false).ifPresent(this::restore);
      case "without" -> find(change, "first", "first", false).ifPresent(this::without);
      case "jump" ->
          // Source: common practice: from 40 back to 20 is 20 to 40 once more.
          find(change.asPlay(), "first", "last", false).ifPresent(plays::add);
      case "repeats-after-jump" -> withRepeats = true;
      case "beats", "meter" -> find(change, "first", "last", false).ifPresent(settings::add);
      case "tempo" ->
          find(change, "first", change.has("last") ? "last" : "first", false)
              .ifPresent(settings::add);
      case "key", "instrument" -> find(change, "first", "first", false).ifPresent(settings::add);
      // A reminder changes nothing that is played, but its bar must be found.
      case "remind" -> find(change, "first", "first", false);
      default -> questions.ask("kind-unknown", change.id(), "a change of no known kind", "none");
    }
    if (change.has(Change.PASS) && !List.of("cut", "only", "not").contains(change.kind())) {
      questions.ask("passes", change.id(), "passes said of something that is no cut", "all passes");
    }
  }

  private Optional<At> find(Change change, String firstKey, String lastKey, boolean beats) {
    Address first = Address.find(number, change.text(firstKey).orElse(""));
    Address last = Address.find(number, change.text(lastKey).orElse(""));
    // Source: plan-format.md, Addresses: what is not found or ambiguous is refused.
    boolean found = first.places().size() == 1 && last.places().size() == 1;
    boolean beatSaid = first.beat().isPresent() || last.beat().isPresent();
    if (!found || (beatSaid && !beats)) {
      return refuse(change, "a bar is not there, or could be several");
    }
    int from = first.places().get(0);
    int to = last.places().get(0);
    boolean sameBarBack =
        from == to
            && first.beat().isPresent()
            && last.beat().isPresent()
            && last.beat().getAsInt() < first.beat().getAsInt();
    if (to < from || sameBarBack) {
      return refuse(change, "it ends before it begins");
    }
    return Optional.of(new At(change, from, to, first.beat(), last.beat()));
  }

  // Source: trade.md, landing in force; changes-1.schema.json: what was cut before is in again.
  private void restore(At back) {
    List<At> left = new ArrayList<>();
    boolean any = false;
    for (At cut : cuts) {
      if (cut.to() < back.from() || cut.from() > back.to()) {
        left.add(cut);
        continue;
      }
      any = true;
      if (cut.from() < back.from()) {
        left.add(
            new At(cut.change(), cut.from(), back.from() - 1, cut.fromBeat(), OptionalInt.empty()));
      }
      if (cut.to() > back.to()) {
        left.add(new At(cut.change(), back.to() + 1, cut.to(), OptionalInt.empty(), cut.toBeat()));
      }
    }
    cuts.clear();
    cuts.addAll(left);
    if (!any) {
      String why = "bars that nobody cut before are in again";
      questions.ask("restore-nothing", back.change().id(), why, "nothing");
    }
  }

  private void without(At at) {
    WrittenBar bar = number.bar(at.from());
    if (bar.has(Navigation.DA_CAPO) || bar.has(Navigation.DAL_SEGNO)) {
      without.add(at.from());
    } else {
      questions.ask("without-nothing", at.change().id(), "no jump stands there", "nothing");
    }
  }

  Optional<At> refuse(Change change, String why) {
    questions.ask("address", change.id(), why, "without it");
    return Optional.empty();
  }

  /** Two settings of one kind at one bar that say different things. */
  private void askSameBar() {
    for (int i = 0; i < settings.size(); i++) {
      for (int k = i + 1; k < settings.size(); k++) {
        At one = settings.get(i);
        At two = settings.get(k);
        boolean beats = List.of("beats", "meter").contains(one.change().kind());
        boolean meet =
            beats ? one.from() <= two.to() && two.from() <= one.to() : one.from() == two.from();
        boolean alike = says(one.change()).equals(says(two.change()));
        if (one.change().kind().equals(two.change().kind()) && meet && !alike) {
          String why = "two changes say different things of one bar";
          questions.ask("same-bar", one.change().id() + "," + two.change().id(), why, "the later");
        }
      }
    }
  }

  private static List<Object> says(Change change) {
    return List.of(
        change.figure("perMinute") * beat(change),
        change.figure("toPerMinute"),
        change.whole("fifths", 99),
        change.whole("beats", 0),
        change.text("meter").orElse(""),
        Objects.toString(change.text("to").map(HandWords::written).orElse("")));
  }

  /** The note value of a tempo change in quarters. */
  static double beat(Change change) {
    String[] parts = change.text("beat").orElse("1/4").split("/");
    return 4.0 * Integer.parseInt(parts[0]) / Integer.parseInt(parts[1]);
  }
}
