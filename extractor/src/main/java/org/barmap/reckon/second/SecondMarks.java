package org.barmap.reckon.second;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading.Measure;
import org.barmap.reckon.compare.Aligner;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.SecondSettings;
import org.barmap.reckon.write.FindingWriter;

/** Says where a second reading that has rehearsal marks has others than the page. */
public final class SecondMarks {

  private static final SecondSettings.SaidMarks SET = ReckonSettings.STANDARD.second().marks();

  /** The kind of doubt where rehearsal marks differ. */
  public static final String CODE = "second-mark";

  private SecondMarks() {}

  /**
   * Compares.
   *
   * @param bars the page's entries
   * @param measures the second reading; where it has no mark at all, or calls nearly all otherwise,
   *     nothing is told
   * @param taken which measures belong to each entry
   */
  public static List<Finding> differing(
      List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken) {
    List<Finding> out = new ArrayList<>();
    if (measures.stream().noneMatch(m -> m.rehearsal().isPresent())) {
      return out;
    }
    int alike = 0;
    Set<Integer> told = new HashSet<>();
    for (int i = 0; i < bars.size(); i++) {
      Aligner.Taken t = taken.get(i);
      if (t.size() == 0) {
        continue;
      }
      Bar bar = bars.get(i);
      Optional<String> page = bar.rehearsal().map(RehearsalMark::text);
      Optional<String> said = measures.get(t.from()).rehearsal();
      alike += page.isPresent() && page.equals(said) ? 1 : 0;
      if (!page.equals(said) && told.add(i)) {
        OptionalInt other = moved(bars, measures, taken, i);
        other.ifPresent(told::add);
        out.add(
            other.isPresent()
                ? moved(bars, i, other.getAsInt(), page.or(() -> said).orElse(""))
                : differs(bar, page, said));
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
    return out.size() > SET.otherwise() && out.size() > alike ? List.of() : out;
  }

  private static Finding differs(Bar bar, Optional<String> page, Optional<String> said) {
    String text = "The second reading has " + named(said) + " here, the page " + named(page) + ".";
    Answer other =
        said.map(s -> FindingWriter.isMark(bar.id(), s))
            .orElse(
                new Answer(
                    "There is no mark", Map.of("kind", "remove-rehearsal", "bar", bar.id())));
    return finding(bar, text, List.of(right(), other));
  }

  /** The entry not far after one where the other of the two has the same mark. */
  private static OptionalInt moved(
      List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken, int i) {
    Optional<String> page = bars.get(i).rehearsal().map(RehearsalMark::text);
    Optional<String> said = measures.get(taken.get(i).from()).rehearsal();
    if (page.isPresent() == said.isPresent()) {
      return OptionalInt.empty();
    }
    for (int k = i + 1; k <= Math.min(i + SET.near(), bars.size() - 1); k++) {
      if (taken.get(k).size() > 0) {
        Optional<String> there = measures.get(taken.get(k).from()).rehearsal();
        Optional<String> drawn = bars.get(k).rehearsal().map(RehearsalMark::text);
        if (there.equals(page) && drawn.equals(said)) {
          return OptionalInt.of(k);
        }
      }
    }
    return OptionalInt.empty();
  }

  /** A mark that the two have some bars apart, the earlier one at entry {@code i}. */
  private static Finding moved(List<Bar> bars, int i, int later, String mark) {
    boolean pageFirst = bars.get(i).rehearsal().isPresent();
    Bar own = bars.get(pageFirst ? i : later);
    Bar other = bars.get(pageFirst ? later : i);
    int apart = Math.abs(other.number() - own.number());
    String text =
        "The second reading has mark "
            + mark
            + " "
            + FindingWriter.bars(apart)
            + (pageFirst ? " later." : " earlier.");
    Answer answer =
        new Answer(
            mark + " stands at " + other.number(),
            Map.of("kind", "move-rehearsal", "bar", own.id(), "to", other.id()));
    return finding(own, text, List.of(right(), answer));
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
