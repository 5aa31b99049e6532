package org.barmap.reckon.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Book;
import org.barmap.map.Enclosure;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.Reckoner;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

/** Marks and meters that the reader is not sure of; the line is invented. */
class UnsureSignsTest {

  @Test
  void whatTheReaderIsSureOfIsNotAsked() {
    assertThat(found(sign(SignKind.METER, 28, 0.9, "3/4"), sign(SignKind.REHEARSAL, 45, 0.9, "B")))
        .isEmpty();
  }

  @Test
  void aMeterThatIsNotSureIsAskedWithWhatElseItMayBe() {
    List<Finding> found = found(sign(SignKind.METER, 28, 0.35, "3/4", "2/4"));
    assertThat(found).extracting(Finding::code).containsExactly("meter-unsure");
    assertThat(found.get(0).answers())
        .extracting(Finding.Answer::label)
        .containsExactly("It is 3/4", "It is 2/4", "No meter stands here");
    assertThat(found.get(0).answers().get(1).correction())
        .containsEntry("kind", "set-meter")
        .containsEntry("beats", "2")
        .containsEntry("unit", "4");
  }

  @Test
  void aMarkThatIsNotSureIsAskedUnlessItsSequenceAsksForIt() {
    List<Finding> found = found(sign(SignKind.REHEARSAL, 45, 0.3, "B"));
    assertThat(found).extracting(Finding::code).containsExactly("mark-unsure");
    assertThat(found.get(0).answers())
        .extracting(Finding.Answer::label)
        .containsExactly("It is B", "There is no mark");
    assertThat(found.get(0).answers().get(0).correction()).containsEntry("enclosure", "circle");
    assertThat(
            found(sign(SignKind.REHEARSAL, 25, 0.9, "A"), sign(SignKind.REHEARSAL, 45, 0.3, "B")))
        .isEmpty();
  }

  private static List<Finding> found(Sign... more) {
    List<Sign> signs = new ArrayList<>(List.of(more));
    for (double at : new double[] {25, 45, 65, 85}) {
      signs.add(sign(SignKind.BARLINE, at, 0.999, "single"));
    }
    StaffSystem staff =
        new StaffSystem(1, Outline.box(0, 0, 850, 40), 10, Optional.empty(), 1, List.of());
    ReadSystem line =
        new ReadSystem(staff, 85, (from, to) -> Outline.box(from * 10, 0, to * 10, 40), signs);
    ReadPage page = new ReadPage(1, "page.png", 1000, 1000, List.of(line));
    return new Reckoner().reckon(new Book("Saltmarsh", "Bass"), List.of(page)).findings();
  }

  /** The first thing it may say has 0.9, the second 0.1. */
  private static Sign sign(SignKind kind, double at, double probability, String... says) {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < says.length; i++) {
      readings.add(new Reading(says[i], i == 0 ? 0.9 : 0.1));
    }
    Outline outline = Outline.box(at * 10, 0, at * 10 + 10, 40);
    return new Sign(
        kind,
        at - 0.5,
        at + 0.5,
        -2,
        2,
        outline,
        probability,
        readings,
        kind == SignKind.REHEARSAL ? Optional.of(Enclosure.CIRCLE) : Optional.empty());
  }
}
