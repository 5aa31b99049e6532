package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.Off;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PrintedOpen;
import org.barmap.plan.piece.Span;

/** Asks what vamps and safeties leave open besides how long they go on. */
final class OpenQuestions {
  private final WrittenNumber number;
  private final List<PlanFinding> findings;
  private final Choices choices;

  OpenQuestions(WrittenNumber number, List<PlanFinding> findings, Choices choices) {
    this.number = number;
    this.findings = findings;
    this.choices = choices;
  }

  /** Two changes hold some of the same bars open; 0 for the earlier one, 1 for the later. */
  int overlap(Span span, OpenStretch stretch, Span otherSpan, OpenStretch other) {
    boolean twice =
        stretch.kind() == other.kind()
            && stretch.bars().equals(other.bars())
            && stretch.leaving().equals(other.leaving());
    if (twice) {
      String text = "The " + stretch.named() + " is there twice; it counts once.";
      findings.add(PlanFinding.change(Severity.INFO, at(span), "vamp-twice", text, span.change()));
      return 0;
    }
    boolean same = stretch.bars().equals(other.bars());
    String text =
        "The "
            + stretch.named()
            + (same ? " is also the " : " shares bars with the ")
            + other.says()
            + "; which one holds? The first does until that is said.";
    if (same) {
      List<ShowChange> later = List.of(Off.of(otherSpan.change()), span.change());
      Question question =
          question(stretch, way(other.says(), without(span)), way(stretch.says(), later));
      findings.add(change("vamp-overlap", span, text).asking(question));
      return 0;
    }
    return ask(
        "vamp-overlap",
        span,
        text,
        new Choices.Way(other.named(), without(span)),
        new Choices.Way(stretch.named(), List.of(Off.of(otherSpan.change()), span.change())));
  }

  /** A change holds some of the bars open that the print holds open as well. */
  void overlapPrinted(OpenStretch printed, OpenStretch other) {
    String text =
        "The book has a "
            + printed.named()
            + ", which shares bars with the "
            + other.named()
            + "; the "
            + other.named()
            + " holds until that is said.";
    add("vamp-overlap", other, text, way(other.named()), way(printed.named()));
  }

  /** A change makes a vamp where the print says safety, or the other way round. */
  void otherKind(PrintedOpen printed, Span span) {
    boolean safety = printed.word().safety();
    String bar = number.nameAt(printed.slot());
    String last = number.nameAt(span.to());
    String kind = safety ? "safety" : "vamp";
    String said = safety ? "vamp" : "safety";
    String text =
        "\""
            + printed.text().strip()
            + "\" is printed at bar "
            + bar
            + ", and a change makes it a "
            + said
            + "; the change holds until that is said.";
    String id = span.change().meta().id();
    List<ShowChange> instead =
        List.of(ShowChange.heldOpen(Meta.of(id), number.label(), safety, bar, last));
    findings.add(
        change("vamp-kind", span, text)
            .asking(
                new Question(
                    Question.Topic.VAMP,
                    Optional.of(bar),
                    List.of(way(said), way(kind, instead)))));
  }

  /** The bar named for the way out is none of its bars. */
  void exitBeforeSign(Span span, OpenStretch stretch) {
    findings.add(
        change(
            "vamp-exit",
            span,
            "A sign stands in the "
                + stretch.named()
                + " behind bar "
                + stretch.leaving().exitBar().orElse("")
                + ", after which it is left: it is not come to. Is that meant?"));
  }

  void exit(Span span, OpenStretch stretch) {
    String text =
        "Bar "
            + stretch.leaving().exitBar().orElse("")
            + " is not in the "
            + stretch.named()
            + "; after which of its bars is it left? At the end of a pass until that is said.";
    findings.add(
        change("vamp-exit", span, text)
            .asking(
                question(
                    stretch,
                    way("at the end of a pass", List.of(again(span, stretch, stretch.bars()))))));
  }

  /** The same bars are counted and held open; 0 for held open, 1 for counted. */
  int counted(Span span, OpenStretch stretch, Span count, int times) {
    String kind = stretch.kind().word();
    String text =
        "Bars "
            + stretch.bars()
            + " are played "
            + times
            + " times and are a "
            + kind
            + "; the "
            + kind
            + " holds until that is said.";
    return ask(
        "vamp-counted",
        span,
        text,
        new Choices.Way(stretch.named(), List.of(Off.of(count.change()), span.change())),
        new Choices.Way("played " + times + " times", without(span)));
  }

  /** A change counts bars that the print holds open; 0 for counted, 1 for held open. */
  int countedPrinted(Span span, OpenStretch stretch, int times) {
    String often = times == 1 ? "once" : times == 2 ? "twice" : times + " times";
    String text =
        "Bars "
            + stretch.bars()
            + " are played "
            + often
            + ", and the book has a "
            + stretch.kind().word()
            + " there; the count holds until that is said.";
    return ask("vamp-counted", span, text, Choices.Way.of("played " + often), alone(stretch));
  }

  /** A vamp or safety over a repeat that has endings; 0 for round with the first. */
  int endings(Span span, OpenStretch stretch) {
    String text =
        "The "
            + stretch.named()
            + " goes round with the first ending, and out through the second; is that meant?";
    return ask(
        "vamp-endings",
        span,
        text,
        Choices.Way.of("round with the first ending, out through the second"),
        new Choices.Way("the repeat as printed, no " + stretch.kind().word(), without(span)));
  }

  /** A vamp inside a repeat; the place of the answer in {@link Held.When}. */
  int passes(Span span, OpenStretch stretch) {
    String text =
        "The "
            + stretch.named()
            + " lies in a repeat; is it a vamp every time? It is until that is said.";
    return ask(
        "vamp-pass",
        span,
        text,
        Choices.Way.of("every time"),
        Choices.Way.of("the first time only"),
        Choices.Way.of("the last time only"));
  }

  /** Left in its middle, a vamp is written out twice; that can't be for one pass alone. */
  void oneWay(Span span, OpenStretch stretch) {
    String text =
        "The "
            + stretch.named()
            + " is left before its end, and in one pass only; it is planned as one every time.";
    findings.add(
        PlanFinding.change(Severity.DOUBT, at(span), "vamp-one-pass", text, span.change()));
  }

  /** A vamp or safety with a whole repeat in it; 0 for with the repeat, 1 for without. */
  int around(Span span, OpenStretch stretch, String repeat) {
    String text =
        "The repeat of bars "
            + repeat
            + " lies in the "
            + stretch.named()
            + "; is it taken every time round? It is until that is said.";
    return ask(
        "vamp-around",
        span,
        text,
        Choices.Way.of("with the repeat every time round"),
        Choices.Way.of("without the repeat"));
  }

  /** A vamp or safety with half a repeat in it does nothing. */
  void crosses(Span span, OpenStretch stretch, String repeat) {
    String text =
        "The "
            + stretch.named()
            + " begins inside a repeat (bars "
            + repeat
            + ") and ends outside it, or the other way round; it does nothing until its bars are"
            + " put right.";
    findings.add(
        PlanFinding.change(Severity.ERROR, at(span), "crosses-repeat", text, span.change())
            .asking(
                question(
                    stretch,
                    way("no " + stretch.named(), without(span)),
                    way(
                        stretch.kind().word() + " " + repeat,
                        List.of(again(span, stretch, repeat))))));
  }

  /**
   * A printed word whose bars can't be told; the index of the stretch to go on with, or their
   * number for none.
   */
  int printed(PrintedOpen printed, List<OpenStretch> stretches) {
    OpenStretch first = stretches.get(0);
    String kind = first.kind().word();
    boolean several = first.bars().contains("-");
    String text =
        "\""
            + printed.text().strip()
            + "\" is printed here without repeat signs of its own; which bars are the "
            + kind
            + (several ? "? Bars " : "? Bar ")
            + first.bars()
            + (several ? " are" : " is")
            + " until that is said.";
    List<Choices.Way> ways = new ArrayList<>();
    stretches.forEach(s -> ways.add(alone(s)));
    String bar = number.nameAt(printed.slot());
    ways.add(new Choices.Way("no " + kind, List.of(played(bar, bar, 1))));
    String id = number.barAt(printed.slot()).id();
    return choices.ask(
        new Choices.Asked(
            PlanFinding.form(Severity.DOUBT, id, "vamp-print", text),
            Question.Topic.VAMP,
            bar,
            ways));
  }

  /** A printed word with a count in it; 0 for till cue, 1 for counted. */
  int times(PrintedOpen printed, OpenStretch stretch, int times) {
    String text =
        "\""
            + printed.text().strip()
            + "\" says both: played "
            + times
            + " times, or till cue? Till cue until that is said.";
    return choices.ask(
        new Choices.Asked(
            PlanFinding.form(Severity.DOUBT, stretch.first(), "vamp-times", text),
            Question.Topic.VAMP,
            first(stretch),
            List.of(
                alone(stretch),
                new Choices.Way(
                    "played " + times + " times",
                    List.of(played(first(stretch), last(stretch), times))))));
  }

  /** What cuts, added bars and signs do inside bars held open. */
  void inside(Held held, List<Piece> pieces, List<Span> spans) {
    int start = held.loop().start();
    boolean cut = false;
    boolean all = true;
    boolean added = false;
    boolean sign = false;
    for (int i = start; i <= held.last(); i++) {
      Piece piece = pieces.get(i);
      cut |= piece.cut() || piece.beatsCut() > 0 || outOnce(piece, spans);
      all &= piece.cut();
      added |= piece.inserted().isPresent() && !piece.cut();
      sign |= i < held.last() && signAtEnd(piece);
      sign |= i > start && signAtStart(piece);
    }
    OpenStretch open = held.open();
    if (all) {
      return;
    }
    String named = "the " + open.named();
    String none = "no " + open.kind().word();
    if (cut) {
      String text = "Bars of " + named + " are cut; it goes round what is left. Is that meant?";
      add("vamp-cut", open, text, way("round the bars left"), way(none));
    }
    if (added) {
      String text = "Bars are added in " + named + "; they are played every time round.";
      add("vamp-added", open, text, way("in it, every time round"), way("once, outside it"));
    }
    if (sign) {
      String text =
          "A D.C., D.S., segno, coda or Fine stands inside "
              + named
              + "; it is followed where it stands. Is that meant?";
      add("vamp-sign", open, text, way("as printed"), way(none));
    }
  }

  /** Tells whether a piece is left out in one pass. */
  private static boolean outOnce(Piece piece, List<Span> spans) {
    return spans.stream()
        .filter(s -> s.from() <= piece.slot() && s.to() >= piece.slot())
        .flatMap(s -> s.effects().course().inPass().stream())
        .anyMatch(r -> r.does() == PassRule.Does.CUT);
  }

  private static boolean signAtEnd(Piece piece) {
    return !piece.endCut()
        && Stream.of(Navigation.DA_CAPO, Navigation.DAL_SEGNO, Navigation.TO_CODA, Navigation.FINE)
            .anyMatch(s -> Jumps.ends(piece, s));
  }

  private static boolean signAtStart(Piece piece) {
    return !piece.cut()
        && Stream.of(Navigation.SEGNO, Navigation.CODA).anyMatch(s -> Jumps.starts(piece, s));
  }

  private int ask(String code, Span span, String text, Choices.Way... ways) {
    String bar = number.nameAt(span.from());
    return choices.ask(
        new Choices.Asked(change(code, span, text), Question.Topic.VAMP, bar, List.of(ways)));
  }

  private PlanFinding change(String code, Span span, String text) {
    return PlanFinding.change(Severity.DOUBT, at(span), code, text, span.change());
  }

  private void add(String code, OpenStretch about, String text, Question.Reading... readings) {
    findings.add(
        new PlanFinding(
            Severity.DOUBT,
            Optional.of(about.first()),
            code,
            text,
            about.change(),
            List.of(),
            Optional.of(question(about, readings))));
  }

  private static Question question(OpenStretch about, Question.Reading... readings) {
    return new Question(Question.Topic.VAMP, Optional.of(first(about)), List.of(readings));
  }

  private static Question.Reading way(String says) {
    return Question.Reading.of(says);
  }

  private static Question.Reading way(String says, List<ShowChange> instead) {
    return new Question.Reading(says, Optional.empty(), instead);
  }

  /** Returns what does without the change of a span. */
  private static List<ShowChange> without(Span span) {
    return List.of(Off.of(span.change()));
  }

  /** Returns the change of a span for other bars, left at the end of a pass. */
  private ShowChange again(Span span, OpenStretch stretch, String bars) {
    String[] ends = bars.split("-", 2);
    boolean safety = stretch.kind() == OpenStretch.Kind.SAFETY;
    return ShowChange.heldOpen(
        span.change().meta(), number.label(), safety, ends[0], ends[ends.length - 1]);
  }

  /** Returns the way in which a stretch alone is held open. */
  private Choices.Way alone(OpenStretch stretch) {
    boolean safety = stretch.kind() == OpenStretch.Kind.SAFETY;
    Meta meta = Meta.of("vamp-" + stretch.first());
    return new Choices.Way(
        stretch.named(),
        List.of(ShowChange.heldOpen(meta, number.label(), safety, first(stretch), last(stretch))));
  }

  private ShowChange played(String first, String last, int times) {
    return ShowChange.played(Meta.of("play-" + first), number.label(), first, last, times);
  }

  private static String first(OpenStretch stretch) {
    return stretch.bars().split("-", 2)[0];
  }

  private static String last(OpenStretch stretch) {
    String[] ends = stretch.bars().split("-", 2);
    return ends[ends.length - 1];
  }

  private Optional<String> at(Span span) {
    return Optional.of(number.barAt(span.from()).id());
  }
}
