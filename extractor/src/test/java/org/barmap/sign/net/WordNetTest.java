package org.barmap.sign.net;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Font;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.rule.WordMeaning;
import org.barmap.sign.strip.PaintedStrip;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Words drawn by the test are read back. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class WordNetTest {
  private final WordNet net = new WordNet();

  @AfterAll
  void close() {
    net.close();
  }

  @ParameterizedTest
  @ValueSource(strings = {"D.S. al Coda", "To Coda", "Fine", "Vamp till cue", "TACET", "pizz."})
  void readsWhatIsDrawn(String words) {
    assertThat(read(words)).isPresent();
    Reading reading = read(words).orElseThrow();
    assertThat(WordMeaning.distance(reading.text().replace(" ", ""), words.replace(" ", "")))
        .as(reading.text())
        .isLessThanOrEqualTo(1);
    assertThat(WordMeaning.of(reading.text())).isEqualTo(WordMeaning.of(words));
  }

  private Optional<Reading> read(String words) {
    double[] right = new double[1];
    PaintedStrip strip =
        new PaintedStrip(
            60,
            g -> {
              g.setFont(new Font(Font.SERIF, Font.BOLD, 30));
              g.drawString(words, 100, 80);
              right[0] = (100 + g.getFontMetrics().stringWidth(words)) / 2.0;
            });
    return net.read(
        Crop.of(
            strip,
            new RawSign(SignKind.WORD, 50, 28, right[0], 43, 1, List.of(), Origin.NETWORK),
            WordNet.HEIGHT,
            WordNet.MOST));
  }
}
