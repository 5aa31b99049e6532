package org.barmap.plan.cases;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** What is expected is compared with what is answered as the cases' README tells. */
class ComparingTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '`',
      value = {
        "'1-3 5';'1 2 3 5'",
        "'(1-2)v 3';'(1 2)v 3'",
        "{'bars':8};{'bars':8,'beats':32}",
        "{'seconds':16.0};{'seconds':16.04}",
        "[{'from':1}];[{'from':1,'to':2}]",
        "{'has':[{'a':2}],'not':[{'a':3}],'most':2,'count':2};[{'a':1},{'a':2}]",
        "{'mentions':['Bar 5','twice']};{'text':'bar 5 is there twice'}",
        "{'mentions':['vamp 4']};{'says':['4','vamp 4']}",
        "{'says':{'mentions':['vamp 4']}};{'says':['4','vamp 4']}",
        "{'refused':{'mentions':['63']}};{'refused':'the last is 63'}",
        "{'asked':{'has':[[{'first':'1'}]]}};{'asked':[[{'first':'2'}],[{'first':'1','last':'3'}]]}"
      })
  void same(String expected, String actual) {
    assertThat(Comparing.differences(json(expected), json(actual))).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '`',
      value = {
        "'1-3 5';'1-5'",
        "'(1-2)v 3';'(1-2)s 3'",
        "{'bars':8};{'beats':32}",
        "{'seconds':'unknown'};{'seconds':16.0}",
        "{'seconds':16.0};{'seconds':17.0}",
        "[{'from':1}];[]",
        "[{'from':1}];[{'from':1},{'from':2}]",
        "{'has':[{'a':3}]};[{'a':1}]",
        "{'not':[{'a':1}]};[{'a':1,'b':2}]",
        "{'most':1};[{},{}]",
        "{'count':3};[{},{}]",
        "{'mentions':['7']};{'text':'bar 5'}",
        "{'silent':['director']};{'text':'ask the director'}"
      })
  void different(String expected, String actual) {
    assertThat(Comparing.differences(json(expected), json(actual))).isNotEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"1--3", "5-1", "1 (2-3)", "1 2]"})
  void noBarsInOrder(String text) {
    assertThatThrownBy(() -> BarsInOrder.spread(text)).isInstanceOf(IllegalArgumentException.class);
  }

  private static JsonNode json(String text) {
    return BarMapJson.mapper().readTree(text.replace('\'', '"'));
  }
}
