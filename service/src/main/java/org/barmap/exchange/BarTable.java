package org.barmap.exchange;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Key;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Word;

/**
 * The bars of a map as a table: CSV after RFC 4180, one line an entry. Text that a spreadsheet
 * would take for a formula gets an apostrophe in front.
 */
public final class BarTable {
  private static final List<String> HEAD =
      List.of(
          "musical number",
          "title",
          "page",
          "system",
          "bar",
          "bars",
          "label",
          "meter",
          "key",
          "rehearsal",
          "content",
          "start barline",
          "end barline",
          "ending",
          "times",
          "signs",
          "words",
          "confidence",
          "origin");

  private BarTable() {}

  /** Writes all bars of a map; tacet numbers have no line. */
  public static void write(BarMap map, Appendable out) throws IOException {
    line(out, HEAD);
    Map<String, MusicalNumber> starts =
        map.numbers().stream()
            .filter(n -> n.firstBar().isPresent())
            .collect(Collectors.toMap(n -> n.firstBar().orElseThrow(), n -> n, (a, b) -> a));
    String label = "";
    String title = "";
    for (Bar bar : map.bars()) {
      MusicalNumber begun = starts.get(bar.id());
      if (begun != null) {
        label = begun.label();
        title = begun.title();
      }
      line(
          out,
          List.of(
              label,
              title,
              Integer.toString(bar.page()),
              Integer.toString(bar.system()),
              Integer.toString(bar.number()),
              Integer.toString(bar.count()),
              bar.label().orElse(""),
              bar.meter().map(m -> m.beats() + "/" + m.unit()).orElse(""),
              bar.key().map(Key::says).orElse(""),
              bar.rehearsal().map(r -> r.text()).orElse(""),
              bar.content().word(),
              bar.startBarline().word(),
              bar.endBarline().word(),
              bar.ending().stream().map(String::valueOf).collect(Collectors.joining(" ")),
              bar.times().map(String::valueOf).orElse(""),
              bar.signs().stream().map(Navigation::word).collect(Collectors.joining(" ")),
              bar.words().stream().map(Word::text).collect(Collectors.joining(" | ")),
              Double.toString(bar.confidence()),
              bar.origin().name().toLowerCase(java.util.Locale.ROOT)));
    }
  }

  /** Writes a line of a table; any text may stand in its cells. */
  public static void line(Appendable out, List<String> cells) throws IOException {
    for (int i = 0; i < cells.size(); i++) {
      if (i > 0) {
        out.append(',');
      }
      out.append(cell(cells.get(i)));
    }
    out.append("\r\n");
  }

  private static String cell(String text) {
    String safe = !text.isEmpty() && "=+-@\t\r".indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
    return safe.matches("(?s).*[\",\r\n].*") ? '"' + safe.replace("\"", "\"\"") + '"' : safe;
  }
}
