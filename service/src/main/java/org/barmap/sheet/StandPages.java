package org.barmap.sheet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.LookAhead;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;

/**
 * A side for each number that is played with all that is known of it, to lie on the stand: how it
 * opens, what the show changes, what comes on the way bar by bar, what is written into the book,
 * what follows.
 */
final class StandPages {
  private static final float INSIDE = 18;

  /** The turn tells what a page starts with, the rest where one comes in. */
  private static final Set<String> TOLD = Set.of("page-start", "entrance");

  /** What the sheets are made of. */
  record Show(ShowChanges changes, Plan plan, Names names) {}

  /** Something that comes at a bar: where it stands in the book, how it is said, how loud. */
  private record Coming(int place, String text, boolean bold) {}

  private final Flow flow;
  private final Show show;

  private StandPages(Flow flow, Show show) {
    this.flow = flow;
    this.show = show;
  }

  static void write(Flow flow, Show show, SheetSettings settings) throws IOException {
    StandPages pages = new StandPages(flow, show);
    int written = 0;
    for (int i = 0; i < show.plan.runSheet().size(); i++) {
      RunSheet line = show.plan.runSheet().get(i);
      if (settings.number().filter(n -> !n.equals(line.number())).isEmpty()) {
        boolean played = line.state() == NumberPlan.State.PLAYED;
        if (written++ > 0 && played) {
          flow.side();
        } else {
          flow.keep(6);
        }
        pages.number(line, show.plan.numbers().get(i), settings);
      }
    }
    if (written == 0) {
      flow.line("The book has no such number yet.");
    }
  }

  private void number(RunSheet line, NumberPlan number, SheetSettings settings) throws IOException {
    String title = (line.number() + "   " + line.title()).strip();
    flow.text(title.isEmpty() ? "The book" : title, 20, true, 0);
    if (settings.dated().isPresent()) {
      flow.line("As of " + settings.dated().get());
    }
    flow.rule(1);
    if (line.state() == NumberPlan.State.PLAYED) {
      String page = line.page().map(p -> "p. " + p).orElse("");
      flow.pair(RunLine.opening(line), page, true);
      flow.line(RunLine.entrance(line, show.names));
      flow.line("Length: " + RunLine.length(line));
      for (String fact : RunLine.more(line, show.names)) {
        flow.text(fact, 13, true, 0);
      }
    } else {
      flow.text(line.state() == NumberPlan.State.CUT ? "CUT" : "TACET", 14, true, 0);
    }
    if (!line.unsure().isEmpty()) {
      flow.line(Says.unsure(line.unsure()));
    }
    changes(line.number());
    coming(line.number());
    pencil(line.number());
    follows(line, number);
  }

  /** What is changed in all of it; what is changed at bars comes on the way. */
  private void changes(String number) throws IOException {
    List<String> said = new ArrayList<>();
    for (ShowChange change : show.changes.active()) {
      boolean whole = change.where().isEmpty() && change.kept().isEmpty();
      if (whole && change.number().strip().equalsIgnoreCase(number)) {
        said.add(ChangePages.unnumbered(change));
      }
    }
    if (!said.isEmpty()) {
      flow.heading("The show changes", said.size());
      for (String one : said) {
        flow.indented(one, INSIDE);
      }
    }
    if (show.plan.notes().stream().anyMatch(n -> n.number().equals(number))) {
      flow.heading("Notes", 1);
      NoteLines.write(flow, show.plan.notes(), number);
    }
  }

  /** All that comes, by bar. */
  private void coming(String number) throws IOException {
    List<Coming> all = new ArrayList<>();
    for (LookAhead ahead : show.plan.lookAhead()) {
      if (ahead.number().equals(number) && !TOLD.contains(ahead.kind())) {
        all.add(at(ahead.bar(), ahead.text(), ahead.kind().equals("cut")));
      }
    }
    for (LongRest rest : show.plan.rests()) {
      if (rest.number().equals(number)) {
        String where =
            show.names.range(rest.first(), rest.last())
                + beside(show.names.theirs(rest.first(), rest.last()));
        String in =
            rest.entrance()
                .map(
                    e -> " In at bar " + show.names.bar(e) + beside(show.names.theirFirst(e)) + ".")
                .orElse("");
        all.add(at(rest.first(), where + ": " + rest.text() + in, false));
      }
    }
    for (Turn turn : show.plan.turns()) {
      if (turn.number().equals(number)) {
        all.add(at(turn.leaves(), turn(turn), true));
      }
    }
    for (GetReady ready : show.plan.instruments()) {
      if (ready.number().equals(number)) {
        all.add(at(ready.at(), called(ready.at()) + ": " + ready.text(), false));
      }
    }
    if (!all.isEmpty()) {
      flow.heading("On the way", all.size());
      all.sort(Comparator.comparingInt(Coming::place));
      for (Coming one : all.stream().distinct().toList()) {
        flow.text(one.text, 13, one.bold, INSIDE);
      }
    }
  }

  private static String beside(Optional<String> theirs) {
    return theirs.map(b -> " [" + b + "]").orElse("");
  }

  private String called(String bar) {
    String name = show.names.bar(bar);
    return name.equals("0") ? "The pickup" : "Bar " + name;
  }

  private Coming at(String bar, String text, boolean bold) {
    return new Coming(show.names.place(bar), text, bold);
  }

  private String turn(Turn turn) {
    String advice =
        turn.advice().stream().filter(Advice::chosen).map(Advice::says).findFirst().orElse("");
    return "Page "
        + turn.fromPage()
        + (turn.direction() == Turn.Direction.BACK ? " back to " : " to ")
        + turn.toPage()
        + " after bar "
        + show.names.lastBar(turn.leaves())
        + beside(show.names.theirLast(turn.leaves()))
        + (turn.pass() > 1 ? ", time " + turn.pass() : "")
        + ": "
        + TurnPages.verdict(turn)
        + ". "
        + advice;
  }

  private void pencil(String number) throws IOException {
    List<PencilMark> marks =
        show.plan.pencil().stream().filter(m -> m.number().equals(number)).toList();
    if (marks.isEmpty()) {
      return;
    }
    flow.heading("In pencil", marks.size());
    for (PencilMark mark : marks) {
      flow.indented("page " + mark.page() + ", " + PencilPages.says(mark, show.names), INSIDE);
    }
  }

  private void follows(RunSheet line, NumberPlan number) throws IOException {
    String follows = RunSheetPages.follows(line.link(), number.following());
    if (line.state() != NumberPlan.State.CUT && !follows.isEmpty()) {
      flow.heading("Then", 1);
      flow.text(follows, 13, true, INSIDE);
    }
  }
}
