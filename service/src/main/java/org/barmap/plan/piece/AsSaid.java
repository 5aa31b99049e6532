package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Key;
import org.barmap.map.Navigation;
import org.barmap.map.Placement;
import org.barmap.map.Word;
import org.barmap.plan.change.effect.Put;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.change.term.Transposed;

/** Puts signs, words, meters and other keys that changes ask for into the pieces of a number. */
final class AsSaid {
  private static final Set<TempoWords.Kind> BY_AND_BY =
      EnumSet.of(TempoWords.Kind.SLOWING, TempoWords.Kind.QUICKENING, TempoWords.Kind.FREE);

  private AsSaid() {}

  /** Puts what the changes say into the pieces they name; pieces begin and end where they do. */
  static void over(List<Piece> pieces, List<Span> spans) {
    List<Span> said =
        spans.stream()
            .filter(s -> s.effects().course().put().isPresent())
            .filter(s -> !s.effects().course().putsInPass())
            .toList();
    if (said.isEmpty()) {
      return;
    }
    boolean apart = false;
    for (int i = 0; i < pieces.size(); i++) {
      Piece piece = pieces.get(i);
      if (piece.added().isPresent()) {
        continue; // what stands in the rest around it goes on behind it
      }
      apart = apart && piece.offset() > 0;
      List<Span> here = new ArrayList<>();
      for (Span span : said) {
        if (span.from() <= piece.slot() && span.to() >= piece.slot()) {
          here.add(span);
        }
      }
      if (!here.isEmpty() || apart) {
        apart = piece.partial();
        pieces.set(i, in(piece, here));
      }
    }
  }

  private static final Set<Navigation> AT_START = Set.of(Navigation.SEGNO, Navigation.CODA);

  private static Piece in(Piece piece, List<Span> here) {
    return piece.partial() ? part(piece, here) : piece.in(with(piece.bar(), piece, here));
  }

  /** Returns a piece with what a change puts into it. */
  static Piece in(Piece piece, Span span) {
    boolean here =
        span.from() <= piece.slot() && span.to() >= piece.slot() && piece.added().isEmpty();
    return here ? in(piece, List.of(span)) : piece;
  }

  private static Bar with(Bar bar, Piece piece, List<Span> spans) {
    BarBuilder made = bar.toBuilder();
    List<Word> words = new ArrayList<>(bar.words());
    List<Navigation> signs = new ArrayList<>(bar.signs());
    Optional<Key> key = bar.key();
    for (Span span : spans) {
      Put put = span.effects().course().put().orElseThrow();
      if (span.from() == piece.slot()) {
        put.without().ifPresent(p -> leaveOut(p, words, signs));
        put.word().filter(AsSaid::another).ifPresent(w -> words.removeIf(AsSaid::figure));
        put.word().ifPresent(w -> words.add(new Word(w, Placement.ABOVE, Optional.empty())));
        put.sign().filter(s -> !signs.contains(s)).ifPresent(signs::add);
      }
      put.meter().ifPresent(m -> made.meter(Optional.of(m)));
      if (put.semitones().isPresent()) {
        int by = put.semitones().getAsInt();
        key = key.map(k -> Transposed.key(k, by));
      }
    }
    return made.words(words).signs(signs).key(key).build();
  }

  private static void leaveOut(Put.Printed printed, List<Word> words, List<Navigation> signs) {
    switch (printed) {
      case JUMP -> signs.removeAll(List.of(Navigation.DA_CAPO, Navigation.DAL_SEGNO));
      case CODA -> signs.removeAll(List.of(Navigation.TO_CODA));
      case HOLD -> signs.removeAll(List.of(Navigation.FERMATA, Navigation.CAESURA));
      case TEMPO -> words.removeIf(w -> BY_AND_BY.contains(TempoWords.read(w.text()).kind()));
    }
  }

  /** Tells whether what the director says is another tempo, so that the printed figure is off. */
  private static boolean another(String said) {
    return TempoWords.read(said).kind() == TempoWords.Kind.OTHER;
  }

  private static boolean figure(Word word) {
    return TempoWords.read(word.text()).kind() == TempoWords.Kind.FIGURE;
  }

  /** A part of a multi-bar rest stands by itself, so that signs in its middle count. */
  private static Piece part(Piece piece, List<Span> spans) {
    Bar bar = piece.bar();
    boolean first = piece.offset() == 0;
    boolean last = piece.offset() + piece.count() == bar.count();
    BarBuilder made =
        bar.toBuilder().number(Math.max(1, bar.number() + piece.offset())).count(piece.count());
    if (piece.count() == 1) {
      made.content(Content.REST);
    }
    if (!first) {
      made.words(List.of()).rehearsal(Optional.empty()).startBarline(Barline.NONE);
    }
    if (!last) {
      made.times(Optional.empty()).endBarline(Barline.SINGLE);
    }
    made.signs(bar.signs().stream().filter(s -> AT_START.contains(s) ? first : last).toList());
    Piece alone = piece.alone(made.build());
    return alone.in(with(alone.bar(), alone, spans));
  }
}
