package org.barmap.plan.ready;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.map.Word;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.term.InstrumentCall;
import org.barmap.plan.change.term.InstrumentNames;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Span;

/**
 * Follows what is in the player's hands through the night. A number takes over what the one before
 * left in hand; where the page before would have said another instrument, which is not played or
 * comes later tonight, the page's counts and it is asked.
 */
public final class InHand {
  /** The last word in the book before a number that puts an instrument into the hands. */
  private record Told(WrittenNumber in, String instrument) {}

  private final Map<WrittenNumber, Told> before = new IdentityHashMap<>();
  private final Set<String> named = new LinkedHashSet<>();
  private final List<PlanFinding> findings;
  private final String home;
  private Hands now;
  private Optional<WrittenNumber> toldIn = Optional.empty();
  private boolean toldByChange;
  private boolean begun;

  /**
   * Begins a night.
   *
   * @param book numbers in the order of the book
   * @param part the book's part; where it names an instrument, that one is held first
   * @param findings what is asked is added here
   */
  public InHand(List<WrittenNumber> book, String part, Chair chair, List<PlanFinding> findings) {
    this.findings = findings;
    this.home = InstrumentNames.chairOf(part);
    Hands first = Instruments.after(Hands.EMPTY, part, home);
    this.now = chair.inHand().map(i -> first.withInstrument(InstrumentNames.full(i))).orElse(first);
    chair.doublings().forEach(d -> named.add(InstrumentNames.full(d)));
    Hands page = now;
    Optional<Told> last = Optional.empty();
    for (WrittenNumber number : book) {
      last.ifPresent(t -> before.put(number, t));
      for (Bar bar : number.bars()) {
        for (Word word : bar.words()) {
          boolean calls = InstrumentCall.read(word.text(), page.instrument(), home).isPresent();
          page = Instruments.after(page, word.text(), home);
          if (calls) {
            named.add(page.instrument());
            last = Optional.of(new Told(number, page.instrument()));
          }
        }
      }
    }
  }

  /** Returns what is held now. */
  public Hands now() {
    return now;
  }

  /**
   * Returns what is held at each piece of the next number that is played, in reading order.
   *
   * @param spans its changes, looked up
   */
  public List<Hands> through(Performance performance, List<Span> spans) {
    List<Hands> hands = new ArrayList<>();
    Map<Integer, List<Span>> starting = new HashMap<>();
    spans.forEach(s -> starting.computeIfAbsent(s.from(), k -> new ArrayList<>(1)).add(s));
    begin(performance, starting);
    Set<Integer> asked = new HashSet<>();
    for (Piece piece : performance.order().pieces()) {
      if (piece.first()) {
        for (Word word : piece.bar().words()) {
          word(performance, piece, word.text(), asked);
        }
      }
      if (piece.inserted().isEmpty()) {
        for (Span span : starting.getOrDefault(piece.slot(), List.of())) {
          now = now.after(span.effects().inForce());
          toldByChange |= span.effects().inForce().instrument().isPresent();
        }
      }
      hands.add(now);
    }
    leave(performance, hands);
    return hands;
  }

  private void word(Performance performance, Piece piece, String text, Set<Integer> asked) {
    Optional<InstrumentCall> call = InstrumentCall.read(text, now.instrument(), home);
    if (call.isPresent()) {
      toldIn = Optional.of(performance.number());
      toldByChange = false;
    }
    if (call.filter(c -> c.names().size() > 1).isPresent()
        && !piece.cut()
        && asked.add(piece.slot())) {
      List<String> ways = new ArrayList<>(call.get().names());
      if (ways.remove(now.instrument())) {
        ways.add(0, now.instrument());
      }
      ask(
          performance.number(),
          piece.slot(),
          "instrument-open",
          "The print leaves the instrument open: \"" + text.strip() + "\". Which do you play?",
          ways);
    }
    now = Instruments.after(now, text, home);
  }

  /** A number may stand behind another one than in the book. */
  private void begin(Performance performance, Map<Integer, List<Span>> starting) {
    WrittenNumber number = performance.number();
    boolean tells = tells(performance, starting);
    Optional<Told> page = Optional.ofNullable(before.get(number));
    boolean same =
        page.isEmpty()
            || toldByChange
            || page.get().in() == toldIn.orElse(null)
            || page.get().instrument().equals(now.instrument());
    if (!same && !tells && !now.instrument().isEmpty()) {
      ask(
          number,
          0,
          "in-hand",
          number.spoken()
              + " names no instrument. The book has the "
              + page.get().instrument()
              + " from "
              + page.get().in().spoken()
              + ", tonight you come with the "
              + now.instrument()
              + ". Which do you play?",
          List.of(page.get().instrument(), now.instrument()));
    }
    if (!same) {
      now = now.withInstrument(page.get().instrument());
    }
    if (!begun && !tells && now.instrument().isEmpty() && !named.isEmpty()) {
      ask(
          number,
          0,
          "in-hand",
          "The book doesn't tell what is in hand at the beginning. Which instrument?",
          List.copyOf(named));
    }
    begun = true;
  }

  /** Tells whether an instrument is named before the first note of a number. */
  private static boolean tells(Performance performance, Map<Integer, List<Span>> starting) {
    int last =
        performance.order().steps().stream()
            .filter(s -> !s.piece().rest())
            .findFirst()
            .map(PlayedPiece::index)
            .orElse(0);
    for (Piece piece :
        performance
            .order()
            .pieces()
            .subList(0, Math.min(last + 1, performance.order().pieces().size()))) {
      boolean words =
          piece.first()
              && piece.bar().words().stream()
                  .anyMatch(w -> InstrumentCall.read(w.text(), "").isPresent());
      boolean changed =
          starting.getOrDefault(piece.slot(), List.of()).stream()
              .anyMatch(s -> s.effects().inForce().instrument().isPresent());
      if (words || changed) {
        return true;
      }
    }
    return false;
  }

  /** What holds at the end of the page is left in hand, unless the number ends before that. */
  private void leave(Performance performance, List<Hands> hands) {
    List<PlayedPiece> steps = performance.order().steps();
    if (steps.isEmpty()) {
      return;
    }
    PlayedPiece step = steps.get(steps.size() - 1);
    int last = step.index();
    List<Piece> pieces = performance.order().pieces();
    boolean fine = step.round().afterJump() && step.piece().endsWith(Navigation.FINE);
    Piece end = pieces.get(pieces.size() - 1);
    boolean onlyCut =
        pieces.subList(last + 1, pieces.size()).stream().allMatch(Piece::cut)
            || (end.cut() && !fine && performance.order().passed().contains(end));
    now = onlyCut ? now : hands.get(last);
  }

  private void ask(
      WrittenNumber number, int slot, String code, String text, List<String> instruments) {
    if (number.slots() == 0) {
      return;
    }
    String bar = number.nameAt(slot);
    List<Question.Reading> readings =
        instruments.stream()
            .map(
                i ->
                    new Question.Reading(
                        i,
                        Optional.empty(),
                        List.of(ShowChange.instrument(number.label(), bar, i))))
            .toList();
    findings.add(
        PlanFinding.form(Severity.DOUBT, number.barAt(slot).id(), code, text)
            .asking(new Question(Question.Topic.INSTRUMENT, Optional.of(bar), readings)));
  }
}
