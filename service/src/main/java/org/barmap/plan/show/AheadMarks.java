package org.barmap.plan.show;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Added;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/**
 * What the show does otherwise than the print and a player wants to know before it comes: cuts,
 * bars that go round, new bars, everything else that was said of bars.
 */
public final class AheadMarks {

  /**
   * One of them.
   *
   * @param kind {@code cut}, {@code vamp}, {@code safety}, {@code added} or {@code said}
   * @param bar the bar entry at which it is wanted
   * @param text in plain words
   */
  public record Told(String kind, Bar bar, String text) {}

  private final WrittenNumber number;
  private final BitSet out = new BitSet();
  private final BitSet inBeats = new BitSet();
  private final List<Told> told = new ArrayList<>();

  private AheadMarks(WrittenNumber number) {
    this.number = number;
  }

  /** Returns what is said of a number that is played, cuts first. */
  public static List<Told> of(Performance performance, List<Span> spans) {
    AheadMarks ahead = new AheadMarks(performance.number());
    for (Piece piece : performance.order().pieces()) {
      if (piece.cut() && piece.inserted().isEmpty()) {
        ahead.out.set(piece.slot(), piece.slot() + piece.count());
      }
    }
    spans.stream().filter(AheadMarks::beats).forEach(s -> ahead.inBeats.set(s.from(), s.to() + 1));
    ahead.cuts(spans);
    performance.order().open().forEach(ahead::open);
    spans.forEach(ahead::span);
    return List.copyOf(ahead.told);
  }

  /** Cuts that touch are one: a player wants to know where to go from, and where to land. */
  private void cuts(List<Span> spans) {
    for (int from = out.nextSetBit(0); from >= 0; ) {
      int to = Math.min(out.nextClearBit(from), number.slots());
      boolean start = from == 0;
      boolean end = to >= number.slots();
      if (!(start && end) && !inBeats.get(from)) {
        String text =
            start
                ? "Begins at bar " + number.nameAt(to) + ": all before it is cut"
                : end
                    ? "Ends after bar " + number.nameAt(from - 1) + ": the rest is cut"
                    : "Cut: from bar "
                        + number.nameAt(from - 1)
                        + " straight to bar "
                        + number.nameAt(to);
        int first = from;
        String notes =
            spans.stream()
                .filter(s -> s.effects().leavesOut() && s.from() < to && s.to() >= first)
                .map(s -> note(s.change()))
                .distinct()
                .collect(Collectors.joining());
        told.add(new Told("cut", number.barAt(start ? to : from - 1), text + notes));
      }
      from = out.nextSetBit(to);
    }
  }

  private void open(OpenStretch open) {
    for (Bar bar : number.bars()) {
      if (bar.id().equals(open.first())) {
        told.add(new Told(open.kind().word(), bar, capital(open.says())));
        return;
      }
    }
  }

  private void span(Span span) {
    Effects does = span.effects();
    int slot = out.nextClearBit(span.from());
    boolean gone = slot > span.to() || slot >= number.slots();
    if (does.added().isPresent()) {
      told.add(new Told("added", number.barAt(span.from()), added(span, does.added().get())));
    } else if (!gone && (!elsewhere(does) || beats(span))) {
      String text = capital(span.change().says()) + note(span.change());
      told.add(new Told("said", number.barAt(slot), text));
    }
  }

  /** Returns the note behind a change, with a blank before it. */
  private static String note(ShowChange change) {
    Optional<String> note = change.meta().note().filter(n -> !n.isBlank());
    return note.filter(n -> !change.saysItsNote()).map(n -> " (" + Saying.one(n) + ")").orElse("");
  }

  /** Part of a bar is out: no whole bar tells of it. */
  private static boolean beats(Span span) {
    return span.effects().leavesOut() && (span.fromBeat().isPresent() || span.toBeat().isPresent());
  }

  /** Cuts and open bars are told above, meters, keys and holds as printed ones, hands in a list. */
  private static boolean elsewhere(Effects does) {
    boolean open = does.rounds().filter(r -> r.until() != Rounds.Until.COUNTED).isPresent();
    boolean asPrinted = does.course().put().filter(p -> p.word().isEmpty()).isPresent();
    boolean told = does.inForce().fifths().isPresent() || does.inForce().instrument().isPresent();
    return does.leavesOut() || open || asPrinted || told;
  }

  private String added(Span span, Added added) {
    String names = String.join(", ", added.labels());
    return Saying.many(added.bars(), "bar")
        + " not in the book, "
        + (added.before() ? "before" : "after")
        + " bar "
        + number.nameAt(span.from())
        + (names.isEmpty() ? "" : ": " + names)
        + added.meter().map(m -> ", in " + m.beats() + "/" + m.unit()).orElse("")
        + added.rest().map(r -> r ? ", a rest" : "").orElse("")
        + note(span.change());
  }

  private static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
