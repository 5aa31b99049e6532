package org.barmap.reckon;

import java.util.ArrayList;
import java.util.List;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.SignKind;

/** Counting without reckoning: every line is a bar, every numeral is believed, headings restart. */
final class Naive {

  private Naive() {}

  static int right(MadeBook book) {
    int right = 0;
    int system = 0;
    int number = 1;
    for (ReadPage page : book.pages) {
      for (ReadSystem s : page.systems()) {
        SystemCells cells = SystemCells.of(s, 1, 1);
        if (!cells.signs(SignKind.HEADING).isEmpty()) {
          number = 1;
        }
        List<double[]> spans = new ArrayList<>();
        for (int c = 0; c < cells.lines().size(); c++) {
          spans.add(new double[] {cells.from(c), cells.to(c), number});
          int count =
              RestEvidence.in(cells, c)
                  .flatMap(r -> r.counts().keySet().stream().findFirst())
                  .orElse(1);
          number += count;
        }
        for (MadeBook.TrueBar t : book.truth) {
          if (t.system() == system && spans.stream().anyMatch(x -> matches(x, t))) {
            right++;
          }
        }
        system++;
      }
    }
    return right;
  }

  private static boolean matches(double[] span, MadeBook.TrueBar t) {
    double common = Math.min(span[1], t.to()) - Math.max(span[0], t.from());
    double union = Math.max(span[1], t.to()) - Math.min(span[0], t.from());
    return common > 0.5 * union && (int) span[2] == t.number();
  }
}
