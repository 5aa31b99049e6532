package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.logging.Logger;
import org.junit.jupiter.api.Test;

/**
 * The reckoning on made books; the targets are the project's own (issue: the map that checks
 * itself).
 */
class ReckonerTest {

  private static final Logger LOG = Logger.getLogger(ReckonerTest.class.getName());

  @Test
  void trueReadingsComeBackUnchangedWithoutAnyFinding() {
    ReckoningFigures f = figures(0, 10, MadeBook.Errors.NONE);
    LOG.info("clean: " + f);
    assertThat(f.right).isEqualTo(f.bars);
    assertThat(f.findings).isZero();
  }

  @Test
  void mostBarsGetTheRightNumberDespiteErrorsOfEveryKind() {
    ReckoningFigures f = figures(100, 130, MadeBook.Errors.USUAL);
    LOG.info("errors: " + f);
    assertThat(f.right / (double) f.bars).isGreaterThan(0.97);
    assertThat(f.found / (double) f.injected).isGreaterThan(0.95);
    assertThat(f.right).isGreaterThan(f.naive);
  }

  private static ReckoningFigures figures(int from, int to, MadeBook.Errors errors) {
    ReckoningFigures f = new ReckoningFigures();
    for (int seed = from; seed < to; seed++) {
      f.add(new MadeBook(seed, 10, errors));
    }
    return f;
  }
}
