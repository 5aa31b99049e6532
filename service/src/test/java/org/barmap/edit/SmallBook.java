package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.Correction;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;

/** A small book to correct: a page of two sloped systems with three bars each. */
abstract class SmallBook {

  static final Outline FIRST =
      new Outline(
          new Point(100, 200), new Point(1300, 260), new Point(1297, 340), new Point(97, 280));

  final Draft draft = Draft.of(book());

  private static BarMap book() {
    Outline second =
        new Outline(
            new Point(100, 500), new Point(1300, 560), new Point(1297, 640), new Point(97, 580));
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      Outline system = i < 3 ? FIRST : second;
      bars.add(
          Bar.builder(
                  "b" + (i + 1),
                  1,
                  i < 3 ? 1 : 2,
                  system.slice(i % 3 / 3.0, (i % 3 + 1) / 3.0).rounded())
              .number(i < 3 ? i + 1 : i + 3)
              .count(i == 2 ? 3 : 1)
              .content(i == 2 ? Content.MULTI_REST : Content.MUSIC)
              .meter(new Meter(4, 4, i == 0))
              .confidence(0.5)
              .build());
    }
    return BarMap.of(
        new Book("Saltmarsh", "Bass"),
        List.of(
            new Page(
                1,
                "page-01.png",
                1400,
                2000,
                List.of(
                    new StaffSystem(1, FIRST, 20, Optional.of(1), 1, List.of()),
                    new StaffSystem(2, second, 20, Optional.of(6), 1, List.of())))),
        List.of(new MusicalNumber("7", "Low Tide", Optional.of("b1"), Optional.of("b6"), false)),
        bars);
  }

  Outcome.Done done(Correction correction) {
    return done(draft, correction);
  }

  static Outcome.Done done(Draft on, Correction correction) {
    Outcome outcome = Editing.correct(on, correction);
    assertThat(outcome).as(correction.toString()).isInstanceOf(Outcome.Done.class);
    return (Outcome.Done) outcome;
  }

  List<String> refused(Correction correction) {
    Outcome outcome = Editing.correct(draft, correction);
    assertThat(outcome).as(correction.toString()).isInstanceOf(Outcome.Refused.class);
    return ((Outcome.Refused) outcome).reasons();
  }

  static List<Integer> numbers(Draft draft) {
    return draft.map().bars().stream().map(Bar::number).toList();
  }
}
