package org.barmap.plan.reference.books;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.barmap.map.Bar;
import org.barmap.plan.reference.ReferenceWalker;
import org.barmap.plan.reference.Walked;
import org.barmap.plan.reference.Walked.OfNumber;
import org.barmap.plan.reference.Walked.Sounding;
import org.junit.jupiter.api.Test;

/** What holds for every book, and the walker against another way of unfolding repeats. */
class ReferenceLawsTest {

  private static final int BOOKS = 600;

  private static final List<String> QUESTIONS =
      List.of(
          "address",
          "coda-alone",
          "coda-before",
          "coda-none",
          "coda-several",
          "cut-beat-meter",
          "cut-beat-shown",
          "cut-ending-edge",
          "cut-jump",
          "cut-pass",
          "cut-repeat-end",
          "cut-repeat-start",
          "ending-inside",
          "ending-last-back",
          "ending-no-back",
          "ending-no-body",
          "ending-order",
          "fine-in-repeat",
          "fine-lonely",
          "fine-or-coda",
          "fine-several",
          "fine-unmet",
          "insert-edge",
          "insert-in-cut",
          "insert-in-rest",
          "insert-twice",
          "jump-both",
          "jump-in-repeat",
          "jump-several",
          "open-cut",
          "open-insert",
          "open-jump",
          "open-over-repeat",
          "open-overlap",
          "order-part",
          "play-and-jump",
          "play-over-repeat",
          "play-over-vamp",
          "play-twice",
          "repeat-start-missing",
          "repeat-unclosed",
          "same-bar",
          "segno-behind",
          "segno-in-repeat",
          "segno-none",
          "segno-several",
          "tacet-and-cut",
          "times-endings",
          "times-inside",
          "times-two",
          "tocoda-in-repeat",
          "tocoda-lonely",
          "tocoda-several",
          "tocoda-unmet",
          "vamp-print");

  private static Walked walk(RandomBook book) {
    return ReferenceWalker.walk(book.map(), book.json(), book.repeatsAfterJump());
  }

  private static boolean sure(Walked walked) {
    return walked.asked().isEmpty() && walked.numbers().stream().allMatch(n -> n.asked().isEmpty());
  }

  private static List<String> names(OfNumber number) {
    return number.order().stream().map(Sounding::says).toList();
  }

  /** Walks books, and tells how many were sure; each of them sounds as the rule says. */
  private static int alike(Knobs knobs, Function<String, List<String>> rule) {
    int sure = 0;
    for (int seed = 0; seed < BOOKS; seed++) {
      RandomBook book = RandomBooks.book(seed, knobs);
      Walked walked = walk(book);
      if (sure(walked)) {
        sure++;
        assertThat(names(walked.numbers().get(0)))
            .as(book.toString())
            .isEqualTo(rule.apply(book.book()));
      }
    }
    return sure;
  }

  /**
   * Source: the reading of a repeat as brackets: {@code |: A :|} is A A, with endings A 1 A 2; by
   * taking the text apart from the inside, not by walking it.
   */
  @Test
  void repeatsUnfoldAsBracketsDo() {
    Knobs knobs =
        new Knobs(java.util.Map.of(), 6, 0, 0)
            .with(0.4, Feature.REPEATS, Feature.ENDINGS, Feature.NESTED, Feature.TIMES)
            .with(0.3, Feature.RESTS, Feature.LONE_ENDINGS, Feature.LINES, Feature.PAGES);
    assertThat(alike(knobs, Brackets::unfold)).isGreaterThan(BOOKS * 9 / 10);
  }

  /**
   * Source: oracles.md, Order of play: up to the jump as without it, then from its target on with
   * the repeats before it once, up to the Fine, or to the To Coda and on from the coda.
   */
  @Test
  void jumpsAreTwoWalksJoined() {
    Knobs knobs =
        new Knobs(java.util.Map.of(), 6, 0, 0)
            .with(0.4, Feature.REPEATS, Feature.NESTED, Feature.TIMES, Feature.CODAS, Feature.FINES)
            .with(0.2, Feature.RESTS, Feature.LINES, Feature.PAGES)
            .with(1, Feature.JUMPS);
    assertThat(alike(knobs, Brackets::unfoldWithJump)).isGreaterThan(BOOKS / 2);
  }

  @Test
  void everySoundingBarIsWrittenOrInserted() {
    for (int seed = 0; seed < BOOKS; seed++) {
      RandomBook book = RandomBooks.book(seed, Knobs.hostile());
      Set<String> written = new HashSet<>();
      for (Bar bar : book.map().bars()) {
        for (int k = 0; k < bar.count(); k++) {
          written.add(bar.id() + "/" + k);
        }
      }
      for (OfNumber number : walk(book).numbers()) {
        for (Sounding bar : number.order()) {
          assertThat(written).contains(bar.bar() + "/" + bar.offset());
        }
      }
    }
  }

  @Test
  void cuttingNeverLengthens() {
    Knobs knobs = Knobs.wild().with(0, Feature.INSERTS, Feature.TACETS, Feature.REORDERS);
    for (int seed = 0; seed < BOOKS; seed++) {
      RandomBook book = RandomBooks.book(seed, knobs);
      List<String> others = book.changes().stream().filter(c -> !c.contains(" cut ")).toList();
      Walked cut = walk(book);
      Walked whole = walk(new RandomBook(book.book(), others, book.repeatsAfterJump()));
      if (sure(cut) && sure(whole)) {
        for (int k = 0; k < cut.numbers().size(); k++) {
          assertThat(cut.numbers().get(k).order().size())
              .as(book.toString())
              .isLessThanOrEqualTo(whole.numbers().get(k).order().size());
        }
      }
    }
  }

  @Test
  void changesCommute() {
    for (int seed = 0; seed < BOOKS; seed++) {
      RandomBook book = RandomBooks.book(seed, Knobs.wild());
      List<String> shuffled = new ArrayList<>(book.changes());
      Collections.shuffle(shuffled, new Random(seed));
      Walked one = walk(book);
      Walked two = walk(new RandomBook(book.book(), shuffled, book.repeatsAfterJump()));
      assertThat(sure(two)).as(book.toString()).isEqualTo(sure(one));
      if (sure(one)) {
        for (int k = 0; k < one.numbers().size(); k++) {
          assertThat(names(two.numbers().get(k)))
              .as(book.toString())
              .isEqualTo(names(one.numbers().get(k)));
          assertThat(two.numbers().get(k).order()).isEqualTo(one.numbers().get(k).order());
          assertThat(new HashSet<>(two.numbers().get(k).open()))
              .isEqualTo(new HashSet<>(one.numbers().get(k).open()));
        }
      }
    }
  }

  @Test
  void theSameSeedIsTheSameBook() {
    for (int seed = 0; seed < 50; seed++) {
      assertThat(RandomBooks.book(seed, Knobs.hostile()))
          .isEqualTo(RandomBooks.book(seed, Knobs.hostile()));
    }
  }

  private static Knobs forms() {
    return Knobs.wild()
        .with(0.3, Feature.PLAYS, Feature.OPENS, Feature.FINES, Feature.PRINTED_OPENS)
        .with(0.5, Feature.REPEATS_AFTER_JUMP, Feature.JUMPS, Feature.NUMBERS);
  }

  /** Everything that can be asked is asked somewhere, but for what these books never hold. */
  @Test
  void hostileBooksReachEveryQuestion() {
    Set<String> asked = new TreeSet<>();
    int sure = 0;
    for (int seed = 0; seed < 4 * BOOKS; seed++) {
      Knobs level = seed % 3 == 0 ? forms() : Knobs.hostile();
      Knobs knobs = level.with(seed % 2 == 0 ? 0.1 : 0.02, Feature.STRAY_SIGNS);
      Walked walked =
          walk(RandomBooks.book(seed, knobs.with(0.2, Feature.PASS_CUTS, Feature.REORDERS)));
      walked.asked().forEach(a -> asked.add(a.key()));
      walked.numbers().forEach(n -> n.asked().forEach(a -> asked.add(a.key())));
      sure += sure(walked) ? 1 : 0;
    }
    assertThat(sure).isPositive();
    assertThat(asked).containsAll(QUESTIONS).doesNotContain("endless");
  }
}
