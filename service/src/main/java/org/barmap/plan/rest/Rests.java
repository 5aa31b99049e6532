package org.barmap.plan.rest;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Word;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.order.OpenRun;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Holds;
import org.barmap.plan.pace.Length;
import org.barmap.plan.piece.OpenWord;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/** Finds the long rests of a number in its order of play. */
public final class Rests {
  /** What an engraver prints for the page turn says nothing about the rest. */
  private static final Pattern TURN_WORDS =
      Pattern.compile(
          "\\s*\\(?(?:v\\.?\\s*s\\.?|volti(?: subito)?|time)\\)?\\s*", Pattern.CASE_INSENSITIVE);

  private final Performance performance;
  private final List<PlayedPiece> steps;
  private final List<OpenRun> runs;

  private Rests(Performance performance) {
    this.performance = performance;
    this.steps = performance.order().steps();
    this.runs = OpenRun.of(performance.order());
  }

  /**
   * Returns the long rests of a number; one that comes again in the same form is listed once.
   *
   * @param least a rest of so many bars is listed
   */
  public static List<LongRest> of(Performance performance, int least) {
    Rests rests = new Rests(performance);
    Map<String, LongRest> found = new LinkedHashMap<>();
    int i = 0;
    while (i < rests.steps.size()) {
      if (!rests.steps.get(i).piece().rest()) {
        i++;
        continue;
      }
      int to = i;
      while (to + 1 < rests.steps.size() && rests.steps.get(to + 1).piece().rest()) {
        to++;
      }
      LongRest rest = rests.rest(i, to);
      if (rest.bars() >= least || rests.silent(i, to)) {
        String form =
            rest.first() + " " + rest.last() + " " + rest.bars() + rest.landmarks() + rest.count();
        found.merge(form, rest, (before, now) -> before.also(now.passes()));
      }
      i = to + 1;
    }
    return List.copyOf(found.values());
  }

  /** A rest that is not drawn has to be told, however short. */
  private boolean silent(int from, int to) {
    return steps.subList(from, to + 1).stream().anyMatch(PlayedPiece::silent);
  }

  private LongRest rest(int from, int to) {
    List<LongRest.Landmark> landmarks = new ArrayList<>();
    List<Integer> inBar = new ArrayList<>();
    Length length = Length.none();
    Optional<Meter> meter = steps.get(from).piece().bar().meter();
    int bars = 0;
    for (int i = from; i <= to; i++) {
      Piece piece = steps.get(i).piece();
      if (i > from) {
        cut(i, bars, landmarks);
        if (piece.first()) {
          landmarks(piece.bar(), meter, bars, landmarks);
        }
        key(i, bars, landmarks);
      }
      bars += RestCount.bars(piece);
      meter = piece.bar().meter().or(() -> steps.get(from).piece().bar().meter());
      int beats = performance.measure(steps.get(i)).beats();
      if (beats > 0 && (inBar.isEmpty() || inBar.get(inBar.size() - 1) != beats)) {
        inBar.add(beats);
      }
      length = length.plus(Length.of(piece, performance.measure(steps.get(i))));
    }
    Length whole = length.rounded();
    RestCount count = RestCount.of(performance.order(), runs, from, to);
    Bar first = steps.get(from).piece().bar();
    Optional<String> entrance =
        to + 1 < steps.size()
            ? Optional.of(steps.get(to + 1).piece().bar().id())
            : Optional.empty();
    return new LongRest(
        performance.number().label(),
        first.id(),
        steps.get(to).piece().bar().id(),
        first.page(),
        bars,
        whole.beats(),
        whole.seconds(),
        inBar,
        landmarks,
        entrance,
        List.of(steps.get(from).pass()),
        count.says(),
        text(bars, inBar, landmarks, count)
            + (silent(from, to) ? " Notes are printed here: you rest this time." : ""),
        List.of());
  }

  /** A jump or a cut inside a rest is a landmark: the count goes on elsewhere. */
  private void cut(int i, int after, List<LongRest.Landmark> landmarks) {
    Piece before = steps.get(i - 1).piece();
    Piece piece = steps.get(i).piece();
    boolean next = piece.slot() == before.slot() + before.count() || piece.inserted().isPresent();
    if (!next && before.inserted().isEmpty()) {
      String name = performance.number().nameAt(piece.slot());
      landmarks.add(new LongRest.Landmark(after, "on at " + name, "cut"));
    }
  }

  private void key(int i, int after, List<LongRest.Landmark> landmarks) {
    Optional<Key> before = performance.key(steps.get(i - 1));
    performance
        .key(steps.get(i))
        .filter(k -> before.filter(b -> !b.sameAs(k)).isPresent())
        .ifPresent(k -> landmarks.add(new LongRest.Landmark(after, k.says(), "key")));
  }

  private static void landmarks(
      Bar bar, Optional<Meter> before, int after, List<LongRest.Landmark> landmarks) {
    bar.rehearsal().ifPresent(m -> landmarks.add(new LongRest.Landmark(after, m.text(), "mark")));
    bar.meter()
        .filter(m -> before.filter(b -> b.sameAs(m)).isEmpty())
        .ifPresent(
            m -> landmarks.add(new LongRest.Landmark(after, m.beats() + "/" + m.unit(), "meter")));
    for (Word word : bar.words()) {
      if (TURN_WORDS.matcher(word.text()).matches() || Holds.isPause(word.text())) {
        continue;
      }
      String kind = TempoWords.read(word.text()).kind() == TempoWords.Kind.NONE ? "words" : "tempo";
      landmarks.add(new LongRest.Landmark(after, word.text(), kind));
    }
  }

  private static String text(
      int bars, List<Integer> inBar, List<LongRest.Landmark> landmarks, RestCount count) {
    StringBuilder text = new StringBuilder();
    text.append(bars).append(bars == 1 ? " bar" : " bars").append(" rest");
    count.plus().forEach(open -> text.append(" and the ").append(open));
    if (inBar.size() == 1) {
      text.append(", count ").append(inBar.get(0)).append(" in a bar");
    } else if (inBar.size() > 1) {
      text.append(", counted in ");
      text.append(String.join(", then ", inBar.stream().map(String::valueOf).toList()));
    }
    if (!count.plain()) {
      text.append(": ").append(count.spoken());
      List<String> inside =
          landmarks.stream()
              .filter(l -> !l.kind().equals("cut") && OpenWord.read(l.what()).isEmpty())
              .filter(l -> l.after() > 0) // where it begins nobody has counted anything yet
              .map(l -> l.what() + " after " + l.after())
              .toList();
      text.append(inside.isEmpty() ? "" : "; inside it " + String.join(", ", inside));
      return text.append('.').toString();
    }
    int done = 0;
    String last = "";
    for (LongRest.Landmark landmark : landmarks) {
      boolean cut = landmark.kind().equals("cut");
      if (landmark.after() > done) {
        text.append("; ").append(landmark.after() - done).append(cut ? ", then " : " to ");
      } else {
        text.append(", ");
      }
      text.append(landmark.what());
      // The first of what stands at one bar is the letter or number, the surest thing to name.
      boolean first = landmark.after() > done || last.isEmpty();
      done = landmark.after();
      last = cut ? "" : first ? landmark.what() : last;
    }
    if (bars > done && done > 0) {
      text.append("; ");
      text.append(
          last.isEmpty() ? (bars - done) + " more" : "the last " + (bars - done) + " from " + last);
    }
    return text.charAt(text.length() - 1) == '.' ? text.toString() : text.append('.').toString();
  }
}
