package org.barmap.reckon;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading.Measure;

/** Says where a second reading that has rehearsal marks has others than the page. */
final class SecondMarks {

  static final String CODE = "second-mark";

  /**
   * More differences than this, and than marks that agree: the source names its marks otherwise.
   */
  private static final int OTHERWISE = 5;

  private SecondMarks() {}

  /**
   * Compares.
   *
   * @param bars the page's entries
   * @param measures the second reading; where it has no mark at all, or calls nearly all otherwise,
   *     nothing is told
   * @param taken which measures belong to each entry
   */
  static List<Finding> differing(
      List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken) {
    List<Finding> out = new ArrayList<>();
    if (measures.stream().noneMatch(m -> m.rehearsal().isPresent())) {
      return out;
    }
    int alike = 0;
    for (int i = 0; i < bars.size(); i++) {
      Aligner.Taken t = taken.get(i);
      if (t.size() == 0) {
        continue;
      }
      Bar bar = bars.get(i);
      Optional<String> page = bar.rehearsal().map(RehearsalMark::text);
      Optional<String> said = measures.get(t.from()).rehearsal();
      alike += page.isPresent() && page.equals(said) ? 1 : 0;
      if (!page.equals(said)) {
        String text = "The second reading has " + named(said) + " here, the page " + named(page);
        Answer other =
            said.map(s -> FindingWriter.isMark(bar.id(), s))
                .orElse(
                    new Answer(
                        "There is no mark", Map.of("kind", "remove-rehearsal", "bar", bar.id())));
        out.add(finding(bar, text + ".", List.of(right(), other)));
      }
      for (int j = t.from() + 1; j < t.to(); j++) {
        Optional<String> inside = measures.get(j).rehearsal();
        if (inside.isPresent()) {
          String text =
              "The second reading has mark " + inside.get() + " inside this bar or rest, at its ";
          out.add(finding(bar, text + "bar " + (j - t.from() + 1) + ".", List.of(right())));
        }
      }
    }
    return out.size() > OTHERWISE && out.size() > alike ? List.of() : out;
  }

  private static Answer right() {
    return new Answer("The page is right", Map.of());
  }

  private static String named(Optional<String> mark) {
    return mark.map(m -> "mark " + m).orElse("no mark");
  }

  private static Finding finding(Bar bar, String text, List<Answer> answers) {
    return FindingWriter.doubt(bar, CODE, text, answers, 1);
  }
}
