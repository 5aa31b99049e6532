package org.barmap.plan.change;

import static org.assertj.core.api.Assertions.assertThat;

import org.barmap.plan.Books;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Bars named as players name them (common practice; "24A" as inserted bars are lettered). */
class AddressTest {
  private static final String BOOK =
      "0@n0 1@mA 2@mr8 10@mB 11 12@mr4 16@mC 17@l24A 17b 18 19@mD 20@mD 21 22@m18";

  private final Addresses addresses = new Addresses(WrittenNumber.all(Books.book(BOOK)).get(0));

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1                  ; 1
          bar 11             ; 11
          m. 11              ; 11
          5                  ; 5
          12                 ; 12
          15                 ; 15
          B                  ; 10
          b                  ; 10
          letter B           ; 10
          4 before B         ; 6
          four before B      ; 6
          four bars before B ; 6
          the bar before B   ; 9
          the bar after B    ; 11
          2 after B          ; 12
          third of B         ; 12
          3rd of B           ; 12
          the third bar of B ; 12
          first of B         ; 10
          B + 2              ; 12
          B+2                ; 12
          B plus two         ; 12
          B - 4              ; 6
          C minus 1          ; 15
          24A                ; 24A
          24a                ; 24A
          end                ; 22
          the last bar       ; 22
          1 before end       ; 21
          start              ; 0
          0                  ; 0
          pickup             ; 0
          mark 18            ; 22
          bar 18             ; 18
          """)
  void isFound(String said, String bar) {
    Found found = addresses.find(said);
    assertThat(found).as(said).isInstanceOf(Found.At.class);
    int slot = ((Found.At) found).place().slot();
    assertThat(WrittenNumber.all(Books.book(BOOK)).get(0).nameAt(slot)).isEqualTo(bar);
  }

  @Test
  void namesABeat() {
    assertThat(((Found.At) addresses.find("11 beat 3")).place().beat()).hasValue(3);
    assertThat(((Found.At) addresses.find("beat 2 of B")).place().beat()).hasValue(2);
    assertThat(((Found.At) addresses.find("the third beat of 4 before B")).place().slot())
        .isEqualTo(((Found.At) addresses.find("6")).place().slot());
    assertThat(refused("11 beat 5").text()).contains("no beat 5");
  }

  @Test
  void whatIsAmbiguousIsRefusedWithTheCandidates() {
    assertThat(refused("D").candidates()).hasSize(2).anyMatch(c -> c.contains("bar 19"));
    assertThat(refused("18").candidates()).hasSize(2).anyMatch(c -> c.contains("mark 18"));
  }

  @Test
  void whatIsNotThereIsRefusedWithWhatIs() {
    assertThat(refused("99").text()).contains("bars 0 to 22");
    assertThat(refused("E").candidates()).contains("A", "B", "C");
    assertThat(refused("30 before B").text()).contains("outside");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "   ", "four score", "B + ", "before B", "<b>1</b>", "1;2", "B beat 0"})
  void whatIsNoAddressIsRefused(String said) {
    assertThat(addresses.find(said)).isInstanceOf(Found.Refused.class);
  }

  /** Two endings of two bars that are numbered alike (some editions do; common practice). */
  private static final WrittenNumber ALIKE =
      WrittenNumber.all(Books.book("|:1 2 3/1 4/1:| 5/2@n3 6/2 7@n5@mB 8 9")).get(0);

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          3 in the 1st ending           ; 2
          3 in the 2nd ending           ; 4
          bar 4 of the second ending    ; 5
          4 (2nd ending)                ; 5
          4, second-time bar            ; 5
          1 before 3 in the 2nd ending  ; 1
          4 before B                    ; 0
          1 before B                    ; 5
          1 + 4                         ; 6
          1 after 4 in the first ending ; 6
          3 + 3                         ; -1
          1 + 2                         ; -1
          3                             ; -1
          """)
  void aNumberThatOccursTwiceIsSaidWithItsEndingAndCountedOnAsItsNumbersDo(String said, int slot) {
    Found found = new Addresses(ALIKE).find(said);
    int at = found instanceof Found.At ok ? ok.place().slot() : -1;
    assertThat(at).as(said).isEqualTo(slot);
  }

  @Test
  void everyBarOfAlikeEndingsIsFoundUnderItsOwnName() {
    Addresses all = new Addresses(ALIKE);
    for (int slot = 0; slot < ALIKE.slots(); slot++) {
      assertThat(((Found.At) all.find(ALIKE.nameAt(slot))).place().slot()).isEqualTo(slot);
    }
    assertThat(((Found.Refused) all.find("3")).text())
        .isEqualTo(
            "3 can be bar 3 in the 1st ending (page 1, system 1)"
                + " or bar 3 in the 2nd ending (page 1, system 1)");
  }

  private Found.Refused refused(String said) {
    return (Found.Refused) addresses.find(said);
  }
}
