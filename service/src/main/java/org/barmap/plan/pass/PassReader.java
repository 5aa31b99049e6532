package org.barmap.plan.pass;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Span;

/** Finds what holds in one pass only, and asks where the print leaves open for which bars. */
public final class PassReader {
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final List<Around> repeats;
  private final List<PlanFinding> findings;
  private final List<PassedBars> rules = new ArrayList<>();

  private PassReader(
      WrittenNumber number, List<Piece> pieces, List<Around> repeats, List<PlanFinding> findings) {
    this.number = number;
    this.pieces = pieces;
    this.repeats = repeats;
    this.findings = findings;
  }

  /**
   * Pieces a word about passes may reach to the end of: what is repeated, or one ending.
   *
   * @param start index of the first piece
   * @param end index of the last piece
   * @param times how often all of it is played, the endings together
   */
  public record Around(int start, int end, int times) {
    boolean repeats(int piece) {
      return times > 1 && piece >= start && piece <= end;
    }
  }

  /**
   * Lays what holds in one pass only over an order of play.
   *
   * @param walked the order of play without it
   * @param repeats what is repeated, and each ending by itself
   * @param findings what is asked is added here
   */
  public static Passes over(
      List<PlayedPiece> walked,
      WrittenNumber number,
      List<Piece> pieces,
      List<Span> spans,
      List<Around> repeats,
      List<PlanFinding> findings) {
    PassReader reader = new PassReader(number, pieces, repeats, findings);
    reader.said(spans);
    reader.printed();
    Passes passes = Passes.over(walked, pieces, reader.rules, findings);
    if (reader.rules.stream().anyMatch(r -> r.span().isPresent())) {
      PassDoubts doubts = new PassDoubts(number, pieces, walked, repeats, findings);
      reader.rules.stream().filter(passes::comes).forEach(doubts::ask);
    }
    return passes;
  }

  private void said(List<Span> spans) {
    for (Span span : spans) {
      span.effects()
          .course()
          .inPass()
          .ifPresent(
              rule -> {
                int first = Pieces.first(pieces, span);
                int last = Pieces.last(pieces, span);
                if (first >= 0 && last >= first) {
                  rules.add(new PassedBars(number, first, last, rule, Optional.of(span), ""));
                }
              });
    }
  }

  /** A change that says who plays in the same bars settles what the print leaves open. */
  private void printed() {
    List<PassedBars> changes =
        rules.stream().filter(r -> !r.puts() && r.rule().does() != PassRule.Does.CUT).toList();
    for (int i = 0; i < pieces.size(); i++) {
      Piece piece = pieces.get(i);
      if (!piece.first() || piece.cut() || piece.bar().words().isEmpty()) {
        continue;
      }
      int at = i;
      Optional<PassWords> words = PassWords.read(piece.bar().words());
      boolean said = changes.stream().anyMatch(c -> c.first() <= at && c.last() >= at);
      if (words.isPresent() && !said) {
        words.get().rule().ifPresent(rule -> printed(at, words.get(), rule));
      }
    }
  }

  private void printed(int i, PassWords words, PassRule rule) {
    int one = endOfEntry(i);
    int whole = words.toTheEnd() ? pieces.size() - 1 : reach(i);
    boolean next = false;
    for (int k = one + 1; k <= whole; k++) {
      if (pieces.get(k).first() && PassWords.read(pieces.get(k).bar().words()).isPresent()) {
        whole = k - 1;
        next = true;
      }
    }
    boolean onlyRests = true;
    for (int k = one + 1; k <= whole; k++) {
      onlyRests &= pieces.get(k).rest();
    }
    boolean tacetInEnding = rule.pass().isEmpty() && !pieces.get(i).bar().ending().isEmpty();
    boolean sure = words.toTheEnd() || next || onlyRests || tacetInEnding;
    if (rule.pass().isEmpty() && pieces.get(i).rest() && !words.toTheEnd()) {
      return; // "tacet" over a rest says what is drawn
    }
    rules.add(new PassedBars(number, i, sure ? whole : one, rule, Optional.empty(), words.text()));
    if (!sure) {
      ask(i, one, whole, words, rule);
    }
  }

  /** Returns the last piece the words may hold for: the end of the repeat, or of the number. */
  private int reach(int i) {
    int end = pieces.size() - 1;
    int length = pieces.size() + 1;
    for (Around around : repeats) {
      if (around.start() <= i && around.end() >= i && around.end() - around.start() < length) {
        length = around.end() - around.start();
        end = around.end();
      }
    }
    return end;
  }

  private int endOfEntry(int i) {
    int end = i;
    while (end + 1 < pieces.size() && pieces.get(end + 1).bar() == pieces.get(i).bar()) {
      end++;
    }
    return end;
  }

  private void ask(int i, int one, int whole, PassWords words, PassRule rule) {
    String name = name(i);
    String alone = one == i && pieces.get(i).count() == 1 ? name : name + "-" + lastName(one);
    String all = name + "-" + lastName(whole);
    String text =
        "\""
            + words.text()
            + "\" stands over bar "
            + name
            + ": for that bar alone, or for "
            + all
            + "? The plan goes by the bar alone.";
    findings.add(
        PlanFinding.form(Severity.DOUBT, pieces.get(i).bar().id(), "which-passes", text)
            .asking(
                new Question(
                    Question.Topic.PASS,
                    Optional.of(name),
                    List.of(
                        new Question.Reading(
                            "bar " + alone + " alone",
                            Optional.of(alone),
                            said(name, lastName(one), rule)),
                        new Question.Reading(
                            "bars " + all, Optional.of(all), said(name, lastName(whole), rule))))));
  }

  private List<ShowChange> said(String first, String last, PassRule rule) {
    return ShowChange.inPass(number.label(), first, last, rule).stream().toList();
  }

  private String name(int i) {
    return number.nameAt(Math.min(number.slots() - 1, pieces.get(i).slot()));
  }

  private String lastName(int i) {
    Piece piece = pieces.get(i);
    int slot = piece.inserted().isPresent() ? piece.slot() - 1 : piece.slot() + piece.count() - 1;
    return number.nameAt(Math.max(0, Math.min(number.slots() - 1, slot)));
  }
}
