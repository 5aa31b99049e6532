package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Outline;
import org.barmap.map.Placement;
import org.barmap.map.Word;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.Beats;
import org.barmap.plan.change.kind.Cut;
import org.barmap.plan.change.kind.CutNumber;
import org.barmap.plan.change.kind.Insert;
import org.barmap.plan.change.kind.Instrument;
import org.barmap.plan.change.kind.Play;
import org.barmap.plan.change.kind.Remind;
import org.barmap.plan.change.kind.Reorder;
import org.barmap.plan.change.kind.Safety;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.kind.Tacet;
import org.barmap.plan.change.kind.Tempo;
import org.barmap.plan.change.kind.Vamp;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.term.Leave;
import org.barmap.plan.change.term.Reminder;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;

/** Whatever a map and a list of changes hold, there is a valid plan, and soon; seeded. */
class HostileTest {

  private static final String[] ADDRESSES = {
    "1",
    "3",
    "7",
    "0",
    "A",
    "B",
    "24A",
    "end",
    "start",
    "2 before B",
    "third of A",
    "B + 3",
    "5 beat 2",
    "beat 3 of 6",
    "999",
    "-1",
    "",
    "before",
    "4 beat 99",
    "<script>",
    "\u0000",
    "B beat 1"
  };

  @Test
  void randomMapsAndChangesAlwaysGiveAValidPlan() {
    Random random = new Random(42);
    for (int i = 0; i < 1_500; i++) {
      BarMap map = map(random, 1 + random.nextInt(30));
      ShowChanges changes = changes(random, random.nextInt(12));
      PlanSettings settings = PlanSettings.USUAL.withRepeatsAfterJump(random.nextBoolean());
      Plan plan = Planner.plan(map, changes, settings);
      if (i % 20 == 0) {
        assertThat(PlanSchema.check(BarMapJson.mapper().readTree(PlanJson.write(plan))))
            .as(plan.toString())
            .isEmpty();
      }
      for (NumberPlan number : plan.numbers()) {
        assertThat(number.played().bars()).isNotNegative();
        assertThat(number.played().beats().orElse(0.0)).isNotNegative();
        assertThat(number.cut().beats().orElse(0.0)).isNotNegative();
      }
    }
  }

  @Test
  void aHugeBookIsPlannedInSeconds() {
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < 60_000; i++) {
      bars.add(
          Bar.builder("b" + i, 1 + i / 40, 1, Outline.box(0, 0, 1, 1))
              .number(i + 1)
              .content(i % 3 == 0 ? Content.REST : Content.MUSIC)
              .startBarline(i % 2 == 0 ? Barline.REPEAT_START : Barline.NONE)
              .endBarline(i % 2 == 1 ? Barline.REPEAT_END : Barline.SINGLE)
              .signs(i % 5 == 0 ? List.of(Navigation.SEGNO, Navigation.DAL_SEGNO) : List.of())
              .meter(new Meter(4, 4, i == 0))
              .build());
    }
    BarMap map = BarMap.of(new Book("Big", "Bass"), List.of(), List.of(), bars);
    List<ShowChange> many = new ArrayList<>();
    for (int i = 0; i < 2_000; i++) {
      String first = Integer.toString(1 + i * 29);
      String last = Integer.toString(1 + i * 29 + 5);
      many.add(
          i % 2 == 0
              ? new Cut(Meta.of("c" + i), "", first, last)
              : new Beats(Meta.of("c" + i), "", first, last, 2));
    }
    Assertions.assertTimeout(
        Duration.ofSeconds(60),
        () -> {
          Plan plan = Planner.plan(map, new ShowChanges(many), PlanSettings.USUAL);
          assertThat(plan.findings()).anyMatch(f -> f.code().equals("too-many-jumps"));
        });
  }

  private static final String[] WORDS = {
    "Vamp",
    "Safety",
    "rit.",
    "a tempo",
    "\u2669 = 120",
    "in two",
    "electric bass",
    "arco",
    "pizz.",
    "Segue",
    "attacca",
    "\u0000<b>",
    "con sord."
  };

  private static BarMap map(Random random, int size) {
    List<Bar> bars = new ArrayList<>();
    int number = random.nextInt(2);
    for (int i = 0; i < size; i++) {
      int count = random.nextInt(5) == 0 ? 1 + random.nextInt(20) : 1;
      BarBuilder bar =
          Bar.builder("b" + i, 1 + random.nextInt(5), 1, Outline.box(0, 0, 1, 1))
              .number(number)
              .count(count)
              .content(Content.values()[random.nextInt(4)])
              .startBarline(Barline.values()[random.nextInt(Barline.values().length)])
              .endBarline(Barline.values()[random.nextInt(Barline.values().length)]);
      if (random.nextInt(3) > 0) {
        bar.meter(new Meter(1 + random.nextInt(13), 1 << random.nextInt(6), random.nextBoolean()));
      }
      if (random.nextInt(4) == 0) {
        bar.signs(List.of(Navigation.values()[random.nextInt(Navigation.values().length)]));
      }
      if (random.nextInt(5) == 0) {
        bar.ending(List.of(1 + random.nextInt(3)));
      }
      if (random.nextInt(9) == 0) {
        bar.times(random.nextInt(5));
      }
      if (random.nextInt(4) == 0) {
        bar.silentStart((double) random.nextInt(9)).silentEnd(random.nextDouble() * 9);
      }
      if (random.nextInt(4) == 0) {
        bar.words(
            List.of(
                new Word(WORDS[random.nextInt(WORDS.length)], Placement.ABOVE, Optional.empty())));
      }
      bars.add(bar.build());
      number = random.nextInt(12) == 0 ? 1 : number + count;
    }
    List<MusicalNumber> numbers = new ArrayList<>();
    for (int n = 0; n < random.nextInt(4); n++) {
      numbers.add(
          new MusicalNumber(
              Integer.toString(1 + random.nextInt(3)),
              "T",
              Optional.of("b" + random.nextInt(size)),
              Optional.of("b" + random.nextInt(size + 2)),
              random.nextInt(6) == 0));
    }
    return BarMap.of(new Book("Odd", "Double Bass"), List.of(), numbers, bars);
  }

  private static ShowChanges changes(Random random, int size) {
    List<ShowChange> changes = new ArrayList<>();
    for (int i = 0; i < size; i++) {
      Meta meta = Meta.of("c" + i);
      String number = random.nextInt(3) == 0 ? "" : Integer.toString(1 + random.nextInt(3));
      String a = ADDRESSES[random.nextInt(ADDRESSES.length)];
      String b = ADDRESSES[random.nextInt(ADDRESSES.length)];
      changes.add(
          switch (random.nextInt(12)) {
            case 0 -> new Vamp(meta, number, a, b, Leave.ANY_TIME);
            case 1 -> new Safety(meta, number, a, b);
            case 2 -> new Play(meta, number, a, b, 1 + random.nextInt(4));
            case 3 -> new Insert(meta, number, a, 1 + random.nextInt(4), Optional.empty());
            case 4 -> new Tempo(meta, number, a, "3/8", 60);
            case 5 -> new Beats(meta, number, a, b, 1 + random.nextInt(7));
            case 6 -> new Instrument(meta, number, a, "flute");
            case 7 -> new Remind(meta, number, a, Reminder.values()[random.nextInt(10)]);
            case 8 -> new Reorder(meta, List.of("2", "1"));
            case 9 ->
                random.nextInt(4) > 0
                    ? new Cut(meta, number, a, a)
                    : random.nextBoolean() ? new Tacet(meta, number) : new CutNumber(meta, number);
            default -> new Cut(meta, number, a, b);
          });
    }
    return new ShowChanges(changes);
  }

  /** Found by books of other seeds: a vamp and a count around, or over, one printed repeat. */
  @Test
  void twoChangesOverOnePrintedRepeatArePlanned() {
    ShowChanges changes =
        ChangesJson.read(
            """
            { "format": "changes/1", "changes": [
              { "id": "a", "number": "1", "kind": "safety", "first": "1", "last": "2" },
              { "id": "b", "number": "1", "kind": "play", "first": "1", "last": "2", "times": 4 } ] }
            """);
    for (String book : List.of("#1 4/4 m |: m :|", "#1 4/4 m :| m")) {
      Plan plan = Planner.plan(BookNotation.read(book).map(), changes, PlanSettings.USUAL);
      assertThat(plan.findings()).as(book).anyMatch(f -> f.question().isPresent());
    }
  }
}
