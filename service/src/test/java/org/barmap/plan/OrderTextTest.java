package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.plan.cases.BarsInOrder;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.OrderText;
import org.barmap.plan.order.Orders;
import org.barmap.plan.piece.Spans;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** An order of play in one line; the notation is that of the trade's cases (README there). */
class OrderTextTest {

  static Stream<Arguments> lines() {
    return Stream.of(
        Arguments.of("#1 4/4 m8", "", "1-8"),
        Arguments.of("#1 4/4 m2 R4 m2", "", "1-8"),
        Arguments.of("#1 4/4 |: m4 :| m2", "", "1-4 1-6"),
        Arguments.of("#1 4/4 =0 m |: m4 :| m2", "", "0-4 1-6"),
        Arguments.of("#1 4/4 m2 =2A m2", "", "1-2 2A 3"),
        Arguments.of("#1 4/4 m8", "{'kind':'cut','first':'3 beat 3','last':'4'}", "1-2 3[1-2] 5-8"),
        Arguments.of(
            "#1 4/4 m8",
            "{'kind':'insert','after':'4','bars':2,'content':'rest'}",
            "1-4 4+1 4+2 5-8"),
        Arguments.of(
            "#1 4/4 m8", "{'kind':'insert','after':'4','bars':2,'label':'4A'}", "1-4 4A 4B 5-8"),
        Arguments.of("#1 4/4 |: m2 [1 m2 :| [2 =3 m2 ] m", "", "1-2 3/1 4/1 1-2 3/2 4/2 5"));
  }

  @ParameterizedTest
  @MethodSource("lines")
  void bars(String book, String change, String line) {
    List<ShowChange> changes =
        change.isEmpty()
            ? List.of()
            : List.of(
                ChangesJson.read(
                        ("{'format':'changes/1','changes':["
                                + change.replace("{", "{'id':'c1','number':'1',")
                                + "]}")
                            .replace('\'', '"'))
                    .changes()
                    .get(0));
    assertThat(OrderText.of(order(book, changes))).isEqualTo(line);
  }

  @Test
  void bracketsStandAtTheirBars() {
    assertThat(OrderText.line(List.of("1", "2", "(", "3", "4", ")v", "5", "24A", "6", "7")))
        .isEqualTo("1-2 (3-4)v 5 24A 6-7");
  }

  @ParameterizedTest
  @MethodSource("lines")
  void whatIsWrittenIsReadAgain(String book, String change, String line) {
    assertThat(OrderText.line(BarsInOrder.spread(line))).isEqualTo(line);
  }

  private static OrderOfPlay order(String book, List<ShowChange> changes) {
    WrittenNumber number = WrittenNumber.all(BookNotation.read(book).map()).get(0);
    List<PlanFinding> findings = new ArrayList<>();
    return Orders.of(number, Spans.of(number, changes, findings), false);
  }
}
