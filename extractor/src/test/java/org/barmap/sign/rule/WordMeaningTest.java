package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.barmap.map.Navigation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The words are common practice of the trade. */
class WordMeaningTest {

  @ParameterizedTest
  @CsvSource({
    "D.C.,DA_CAPO",
    "D. C. al Fine,DA_CAPO",
    "Da Capo,DA_CAPO",
    "D.S. al Coda,DAL_SEGNO",
    "DS al Coda,DAL_SEGNO",
    "D.S. al Fine (no repeats),DAL_SEGNO",
    "D.S. aI Coda,DAL_SEGNO",
    "Dal Segno al Fine,DAL_SEGNO",
    "To Coda,TO_CODA",
    "To C0da,TO_CODA",
    "al Coda,TO_CODA",
    "CODA,CODA",
    "Fine,FINE"
  })
  void jumps(String words, Navigation meaning) {
    assertThat(WordMeaning.of(words).navigation()).contains(meaning);
  }

  @ParameterizedTest
  @CsvSource({
    "3X,3",
    "(4x),4",
    "x2,2",
    "play 3 times,3",
    "Play 4x,4",
    "8 times,8",
    "repeat 3 times,3",
    "play three times,3",
    "3X (last time quiet),3"
  })
  void timesInAll(String words, int times) {
    assertThat(WordMeaning.of(words).times()).contains(times);
  }

  @ParameterizedTest
  @CsvSource({
    "TACET,TACET", "Vamp till cue,VAMP", "Safety,SAFETY", "Saftey,SAFETY", "segue,SEGUE",
    "Attacca,SEGUE", "V.S.,TURN", "VS,TURN", "volti subito,TURN", "Segue to No. 8,SEGUE"
  })
  void cues(String words, WordMeaning.Cue cue) {
    assertThat(WordMeaning.of(words).cue()).contains(cue);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "line",
        "1st time only",
        "3x only",
        "2nd X only",
        "arco",
        "pizz.",
        "find",
        "code",
        "Fin",
        "",
        "1x",
        "Low Tide",
        "Allegro",
        "Coda Road",
        "♩ = 120",
        "7",
        "D",
        "fine tuning"
      })
  void otherWordsMeanNothing(String words) {
    assertThat(WordMeaning.of(words).isNothing()).isTrue();
  }

  @Test
  void oneMeaningAtATime() {
    WordMeaning m = WordMeaning.of("D.S. al Coda");
    assertThat(m.times()).isEmpty();
    assertThat(m.cue()).isEqualTo(Optional.empty());
  }
}
