package org.barmap.plan.change;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.kind.ShowChange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Documents kept from the first writer of {@code changes/1}; they load, and are written alike. */
class ChangesJsonTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{'id':'a','number':'7','kind':'cut','first':'34','last':'49 beat 2'}",
        "{'id':'a','kind':'cut','first':'34','last':'34','note':'short','on':false,"
            + "'when':'2026-01-02T03:04:05Z','who':'Ann'}",
        "{'id':'a','number':'7','kind':'vamp','first':'B','last':'B + 1','leave':'any-time'}",
        "{'id':'a','number':'7','kind':'vamp','first':'B','last':'B','leave':'end-of-pass'}",
        "{'id':'a','number':'7','kind':'safety','first':'60','last':'61'}",
        "{'id':'a','number':'9','kind':'play','first':'10','last':'13','times':3}",
        "{'id':'a','number':'9','kind':'insert','after':'24','bars':2}",
        "{'id':'a','number':'9','kind':'insert','after':'24','bars':2,'label':'24A'}",
        "{'id':'a','number':'12','kind':'tacet'}",
        "{'id':'a','number':'13','kind':'cut-number','note':'scene out'}",
        "{'id':'a','kind':'order','numbers':['9','7']}",
        "{'id':'a','number':'7','kind':'tempo','first':'B','beat':'3/8','perMinute':60.5}",
        "{'id':'a','number':'7','kind':'tempo','first':'20','last':'28','beat':'1/4',"
            + "'perMinute':100,'toPerMinute':132}",
        "{'id':'a','number':'7','kind':'key','first':'B','fifths':-3}",
        "{'id':'a','number':'7','kind':'beats','first':'20','last':'40','beats':2}",
        "{'id':'a','number':'7','kind':'instrument','first':'50','to':'electric bass'}",
        "{'id':'a','number':'7','kind':'remind','first':'57','what':'missed','note':'F sharp'}"
      })
  void whatIsReadIsWrittenAlike(String change) {
    String json = change.replace('\'', '"');
    ShowChange read = ChangesJson.read(document(json)).changes().get(0);
    assertThat(ChangesJson.tree(read).toString()).isEqualTo(json);
    assertThat(read.effects().equals(Effects.NONE) && read.marking().isEmpty())
        .as("a change does something or is written down")
        .isFalse();
  }

  /** A tempo that stays has no last bar; one by and by ends where it begins when none is named. */
  @Test
  void theLastBarOfATempo() {
    String tempo = "{'id':'a','kind':'tempo','first':'3','beat':'1/4','perMinute':100";
    assertThat(written(tempo + ",'last':'9'}")).doesNotContain("last");
    assertThat(written(tempo + ",'toPerMinute':80}")).contains("\"last\":\"3\"");
  }

  /**
   * What goes slower by and by is a ritardando, what goes faster an accelerando (common practice).
   */
  @Test
  void aTempoThatChangesIsPencilledAsPlayersSayIt() {
    String tempo = "{'id':'a','kind':'tempo','first':'3','beat':'1/4','perMinute':100";
    assertThat(pencilled(tempo + ",'toPerMinute':80}")).isEqualTo("\u2669 = 100, rit. to 80");
    assertThat(pencilled(tempo + ",'toPerMinute':120}")).isEqualTo("\u2669 = 100, accel. to 120");
  }

  private static String pencilled(String json) {
    return ChangesJson.read(document(json.replace('\'', '"')))
        .changes()
        .get(0)
        .marking()
        .orElseThrow()
        .sign();
  }

  /** JSON Schema takes 2.0 for an integer (2020-12, 6.1.1); so does reading. */
  @Test
  void aWholeFigureMayHaveAPoint() {
    assertThat(written("{'id':'a','kind':'play','first':'1','last':'2','times':2.0}"))
        .contains("\"times\":2}");
  }

  @Test
  void keysNobodyKnowsAreLeftOut() {
    assertThat(written("{'id':'a','kind':'tacet','number':'1','meta':{'id':'b'},'who':''}"))
        .isEqualTo("{\"id\":\"a\",\"number\":\"1\",\"kind\":\"tacet\"}");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{'id':'a','kind':'shout','first':'3'}",
        "{'id':'a','kind':'cut','first':'3'}",
        "{'id':'a','kind':'Cut','first':'3','last':'4'}",
        "{'id':'a','kind':'play','first':'3','last':'4','times':1.5}",
        "{'id':'a','kind':'remind','first':'3','what':null}",
        "{'id':'a','kind':'tacet'}"
      })
  void whatBreaksTheSchemaIsRefused(String change) {
    assertThatThrownBy(() -> ChangesJson.read(document(change.replace('\'', '"'))))
        .isInstanceOf(BadChangesException.class)
        .hasMessageStartingWith("/changes/0");
  }

  private static String written(String change) {
    ShowChanges read = ChangesJson.read(document(change.replace('\'', '"')));
    return ChangesJson.tree(read.changes().get(0)).toString();
  }

  private static String document(String change) {
    return "{\"format\":\"changes/1\",\"changes\":[" + change + "]}";
  }
}
