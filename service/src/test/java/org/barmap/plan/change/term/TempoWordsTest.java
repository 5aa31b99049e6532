package org.barmap.plan.change.term;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.plan.change.term.TempoWords.Kind;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tempo words as parts print them; what each does is common practice. */
class TempoWordsTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Waltz",
        "Slow Waltz",
        "Swing",
        "Medium Swing",
        "March",
        "Tango",
        "Bossa Nova",
        "Ragtime",
        "Soft Shoe",
        "Rock",
        "Gospel",
        "Can-can",
        "Polka",
        "Jig",
        "Broadly",
        "Freely, slowly",
        "Poco meno",
        "Poco meno mosso",
        "Un poco più",
        "Più mosso",
        "Meno",
        "Con moto",
        "Maestoso",
        "Tempo di valse",
        "Tempo di Marcia",
        "Tempo giusto",
        "Allegro assai",
        "Andante con moto",
        "Un po' più vivo",
        "Slightly slower",
        "A little faster",
        "Brighter",
        "With motion",
        "Driving",
        "Steady four",
        "Langsam",
        "Etwas schneller",
        "Mäßig bewegt",
        "Sehr ruhig",
        "Walzertempo",
        "Breit",
        "Lent et calme",
        "Plus vite",
        "Un peu plus lent",
        "Très modéré",
        "Mouvement de valse",
        "a tempo, poco meno",
        "Tempo I ma più lento",
        "(q = 1",
        "Light swing"
      })
  void aWordWithoutAFigureIsAnotherTempo(String words) {
    assertThat(TempoWords.read(words).kind()).isEqualTo(Kind.OTHER);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Double-time feel",
        "Half-time feel",
        "Half-time shuffle",
        "Straight 8ths",
        "Swing 8ths",
        "Swung eighths",
        "Latin feel",
        "(\u266B = \u2669 \u266A)",
        "dim.",
        "meno f",
        "più piano",
        "poco più forte",
        "Lights up",
        "Vamp till March starts",
        "Mary: how slow is that march?",
        "in two",
        "pizz.",
        "Electric Bass",
        "cresc.",
        "dolce",
        "marcato",
        "To Coda",
        "Solo",
        "light",
        "gently"
      })
  void aFeelACueAndALoudnessAreNone(String words) {
    assertThat(TempoWords.read(words).kind()).isIn(Kind.NONE);
  }

  @ParameterizedTest
  @CsvSource({
    "Double time,TWICE",
    "Doppio movimento,TWICE",
    "Twice as fast,TWICE",
    "Doppelt so schnell,TWICE",
    "Deux fois plus vite,TWICE",
    "Half time,HALF",
    "Half as fast,HALF",
    "Halb so schnell,HALF",
    "Doppio più lento,HALF",
    "Deux fois moins vite,HALF",
    "a tempo,BACK",
    "A Tempo,BACK",
    "In tempo,BACK",
    "Tempo,BACK",
    "rit. a tempo,BACK",
    "Im Zeitmaß,BACK",
    "Au mouvement,BACK",
    "Wie vorher,BACK",
    "Tempo I,FIRST",
    "Tempo 1°,FIRST",
    "Tempo primo,FIRST",
    "Original tempo,FIRST",
    "Tempo I (Allegro),FIRST",
    "Erstes Zeitmaß,FIRST",
    "1er Mouvement,FIRST",
    "L'istesso tempo,SAME",
    "Lo stesso tempo,SAME",
    "Same tempo,SAME",
    "Dasselbe Zeitmaß,SAME",
    "Même mouvement,SAME",
    "rit.,SLOWING",
    "poco rall.,SLOWING",
    "molto allargando,SLOWING",
    "Slowing down,SLOWING",
    "Gradually slower,SLOWING",
    "cédez,SLOWING",
    "immer langsamer,SLOWING",
    "accel.,QUICKENING",
    "stringendo,QUICKENING",
    "poco a poco più mosso,QUICKENING",
    "Getting faster,QUICKENING",
    "Poco a poco animato,QUICKENING",
    "Gradually slow,SLOWING",
    "drängend,QUICKENING",
    "en pressant,QUICKENING",
    "colla voce,FREE",
    "Rubato,FREE",
    "Freely,FREE",
    "Ad lib.,FREE",
    "senza misura,FREE",
    "a tempo (poco rit.),SLOWING"
  })
  void wordsThatHangOnTheTempoBefore(String words, Kind kind) {
    assertThat(TempoWords.read(words).kind()).isEqualTo(kind);
  }

  @ParameterizedTest
  @CsvSource({
    "Waltz \u2669 = 150,150", "Slow \uD834\uDD5E = 54,108",
    "Slow \uD834\uDD57\uD834\uDD65 = 54,108", "\uD834\uDD58\uD834\uDD65 = 96,96",
    "a tempo (q. = 60),90"
  })
  void aFigureCountsBeforeAnyWord(String words, double quarters) {
    assertThat(TempoWords.read(words).kind()).isEqualTo(Kind.FIGURE);
    assertThat(TempoWords.read(words).figure()).hasValue(quarters);
  }

  @ParameterizedTest
  @CsvSource({
    "\u2669 = \u2669.,4/4,6/8,1.5",
    "\u2669. = \u2669,6/8,4/4,0.6667",
    "\u2669. = \u2669,4/4,6/8,1.5",
    "\u266A = \u266A,4/4,6/8,1",
    "h = q,2/2,4/4,0.5",
    "\u2669 = \u2669,4/4,3/4,1",
    "new \u2669 = old \u2669.,4/4,4/4,0.6667",
    "\u2669 = preceding \u266A,4/4,4/4,2",
    "\u2669 = \uD834\uDD5E,4/4,2/2,2"
  })
  void aNoteLastsAsLongAsAnother(String words, String before, String now, double factor) {
    TempoWords read = TempoWords.read(words);
    assertThat(read.kind()).isEqualTo(Kind.RELATION);
    assertThat(read.relation().orElseThrow().factor(meter(before), meter(now)))
        .isCloseTo(factor, org.assertj.core.data.Offset.offset(0.001));
  }

  @ParameterizedTest
  @CsvSource({
    "in one,3/4,1", "In 2,4/4,2", "in five,5/4,5", "Jig (in two),6/8,2", "in 3+2+2,7/8,3",
    "2+2+3,7/8,3", "2 + 3,5/8,2", "alla breve,4/4,2", "Cut time,4/4,2", "in zwei,6/8,2",
    "ganztaktig,3/4,1", "à deux temps,6/8,2", "in 2 bars,4/4,0", "a 2,4/4,0", "in 3rds,4/4,0",
    "2+2,7/8,0", "alla breve,6/8,0", "in octaves,4/4,0", "enters in one bar,4/4,0"
  })
  void beatsThatAreShown(String words, String meter, int beats) {
    assertThat(BeatWords.read(words, meter(meter)).orElse(0)).isEqualTo(beats);
  }

  private static Optional<Meter> meter(String figures) {
    String[] parts = figures.split("/", -1);
    return Optional.of(new Meter(Integer.parseInt(parts[0]), Integer.parseInt(parts[1]), true));
  }
}
