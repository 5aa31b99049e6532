package org.barmap.reckon.write;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.Meter;
import org.barmap.map.RehearsalMark;
import org.barmap.reckon.cells.Meters;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;

/** Doubts about a mark or a meter that was read but is not sure; nothing else shifts by them. */
public final class UnsureSigns {

  /** The kind of doubt about a rehearsal mark. */
  public static final String MARK = "mark-unsure";

  /** The kind of doubt about a meter. */
  public static final String METER = "meter-unsure";

  private UnsureSigns() {}

  /** A doubt about the mark over a bar. */
  public static Finding mark(Bar bar, RehearsalMark mark) {
    return FindingWriter.doubt(
        bar,
        MARK,
        "A mark that looks like " + mark.text() + " was read here, but not for sure.",
        List.of(
            new Answer(
                "It is " + mark.text(),
                Map.of(
                    "kind",
                    "set-rehearsal",
                    "bar",
                    bar.id(),
                    "text",
                    mark.text(),
                    "enclosure",
                    mark.enclosure().name().toLowerCase(Locale.ROOT))),
            new Answer("There is no mark", Map.of("kind", "remove-rehearsal", "bar", bar.id()))),
        1);
  }

  /** A doubt about the meter printed in a bar. */
  public static Finding meter(Bar bar, Meter meter, Sign read) {
    List<Answer> answers = new ArrayList<>();
    answers.add(isMeter(bar, meter));
    Optional<Meter> other =
        read.readings().stream()
            .map(Reading::text)
            .flatMap(t -> Meters.parse(t).stream())
            .filter(m -> !m.sameAs(meter))
            .findFirst();
    other.ifPresent(m -> answers.add(isMeter(bar, m)));
    answers.add(
        new Answer("No meter stands here", Map.of("kind", "remove-meter", "bar", bar.id())));
    return FindingWriter.doubt(
        bar, METER, "The meter read here, " + says(meter) + ", is not sure.", answers, 1);
  }

  private static Answer isMeter(Bar bar, Meter meter) {
    return new Answer(
        "It is " + says(meter),
        Map.of(
            "kind",
            "set-meter",
            "bar",
            bar.id(),
            "beats",
            Integer.toString(meter.beats()),
            "unit",
            Integer.toString(meter.unit())));
  }

  private static String says(Meter meter) {
    return meter.beats() + "/" + meter.unit();
  }
}
