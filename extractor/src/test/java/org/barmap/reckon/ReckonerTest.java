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
    ReckoningFigures f = new ReckoningFigures();
    for (int seed = 0; seed < 10; seed++) {
      f.add(new MadeBook(seed, 10, MadeBook.Errors.NONE));
    }
    LOG.info("clean: " + f);
    assertThat(f.right).isEqualTo(f.bars);
    assertThat(f.findings).isZero();
  }

  @Test
  void mostBarsGetTheRightNumberDespiteErrorsOfEveryKind() {
    ReckoningFigures f = new ReckoningFigures();
    for (int seed = 100; seed < 130; seed++) {
      f.add(new MadeBook(seed, 10, MadeBook.Errors.USUAL));
    }
    LOG.info("errors: " + f);
    assertThat(f.right / (double) f.bars).isGreaterThan(0.97);
    assertThat(f.found / (double) f.injected).isGreaterThan(0.95);
    assertThat(f.right).isGreaterThan(f.naive);
  }
}
