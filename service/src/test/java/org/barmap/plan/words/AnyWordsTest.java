package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.junit.jupiter.api.Test;

/** Whatever is typed comes back: understood, asked, or kept; nothing is dropped, nothing fails. */
class AnyWordsTest {
  private static final List<String> WORDS =
      List.of(
          "cut",
          "34",
          "to",
          "B",
          "-",
          "the",
          "last",
          "4",
          "bars",
          "before",
          "after",
          "from",
          "go",
          "straight",
          "end",
          "of",
          "beat",
          "3",
          "vamp",
          "till",
          "no",
          "repeat",
          "second",
          "ending",
          "No.",
          "7",
          ":",
          ",",
          ";",
          "(",
          ")",
          "and",
          "twenty",
          "one",
          "through",
          "up",
          "99999",
          "play",
          "times",
          "x",
          "=",
          "\u2669",
          "\u0000",
          "\u202E",
          "\uD83D",
          "[",
          "*",
          "\\",
          "C");

  @Test
  void randomWordsAreAnswered() {
    BarMap book =
        Books.book("%7 " + Books.run("", 1, 19, "") + "20@mB 21@6/8 22@mr40 62@mC@4/4 63 %9 901");
    Random random = new Random(7);
    for (int i = 0; i < 3_000; i++) {
      StringBuilder text = new StringBuilder(i % 2 == 0 ? "No. 7: " : "");
      for (int k = random.nextInt(14) + 1; k > 0; k--) {
        text.append(WORDS.get(random.nextInt(WORDS.size())))
            .append(random.nextInt(5) > 0 ? " " : "");
      }
      for (Heard<ShowChange> heard : ChangeWords.understand(book, text.toString())) {
        assertThat(heard.said()).as(text.toString()).isNotNull();
      }
    }
  }

  @Test
  void aLongListIsReadUpToItsBoundAndSaysSo() {
    BarMap book = Books.book("%7 " + Books.run("", 1, 19, "") + "%9 901 902");
    List<Heard<ShowChange>> heard = ChangeWords.understand(book, "cut 3 to 5\n".repeat(10_000));
    assertThat(heard).hasSize(ChangeWords.MOST_LINES + 1);
    assertThat(heard.get(ChangeWords.MOST_LINES)).isInstanceOf(Heard.AskedBack.class);
    assertThat(ChangeWords.understand(book, "cut ".repeat(20_000))).hasSize(1);
  }
}
