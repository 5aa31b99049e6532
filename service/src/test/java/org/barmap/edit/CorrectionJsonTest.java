package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.AddBarline;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.HeldCorrection;
import org.barmap.edit.kind.RemoveBarline;
import org.barmap.edit.kind.SetSilence;
import org.barmap.edit.kind.Side;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;

/** Every kind of correction as JSON, and what does not fit refused in plain words. */
class CorrectionJsonTest extends SmallBook {

  @Test
  void whatDoesNotFitIsRefusedInPlainWords() {
    assertThat(refused(new BarCorrection.SetCount("zz", 3)))
        .containsExactly("There is no bar with the id \"zz\"");
    assertThat(refused(new BarCorrection.SetCount("b1", 0)).get(0)).contains("1 to 9999");
    assertThat(refused(new AddBarline(1, 1, 500, 1500)).get(0)).contains("not on system");
    assertThat(refused(new AddBarline(1, 1, 499, 265)).get(0)).contains("barline already");
    assertThat(refused(new RemoveBarline("b3", Side.END)).get(0)).contains("same system");
    assertThat(refused(silence("b1", 4)).get(0)).contains("no note is left");
    assertThat(refused(silence("b1", -1)).get(0)).contains("0 to 99");
    assertThat(refused(silence("b1", Double.NaN)).get(0)).contains("0 to 99");
    assertThat(refused(silence("b3", 1)).get(0)).contains("all of it is free");
    assertThat(refused(new HeldCorrection.SetMeter("b1", 4, 3)).get(0)).contains("over 1, 2, 4");
  }

  private static SetSilence silence(String bar, double beats) {
    return new SetSilence(bar, Optional.of(Side.START), Optional.of(beats));
  }

  @Test
  void everyKindReadsFromItsJson() {
    List<String> documents =
        List.of(
            "{'kind':'set-count','bar':'b3','count':8,'who':'Ada'}",
            "{'kind':'set-count','bar':'b3','count':'8'}",
            "{'kind':'set-content','bar':'b1','content':'rest'}",
            "{'kind':'set-rehearsal','bar':'b1','text':'A','enclosure':'box'}",
            "{'kind':'remove-rehearsal','bar':'b1'}",
            "{'kind':'move-rehearsal','bar':'b1','to':'b2'}",
            "{'kind':'set-meter','bar':'b1','beats':6,'unit':8}",
            "{'kind':'remove-meter','bar':'b1'}",
            "{'kind':'set-key','bar':'b1','fifths':-3}",
            "{'kind':'remove-key','bar':'b1'}",
            "{'kind':'set-silence','bar':'b1','side':'start','beats':1.5}",
            "{'kind':'set-silence','bar':'b1','side':'end'}",
            "{'kind':'set-number','bar':'b1','number':5}",
            "{'kind':'set-label','bar':'b1','label':'X1'}",
            "{'kind':'add-barline','page':1,'system':1,'x':300,'y':260}",
            "{'kind':'move-barline','bar':'b1','side':'end','x':600,'y':265}",
            "{'kind':'remove-barline','bar':'b1','side':'end'}",
            "{'kind':'set-barline','bar':'b1','side':'end','type':'repeat-end'}",
            "{'kind':'set-ending','bar':'b1','ending':[1,2]}",
            "{'kind':'set-sign','bar':'b1','sign':'segno','present':true}",
            "{'kind':'set-times','bar':'b1','times':3}",
            "{'kind':'set-words','bar':'b1','words':[{'text':'Vamp','where':'above'}]}",
            "{'kind':'start-number','bar':'b2','label':'8','title':'Ebb'}",
            "{'kind':'remove-number','bar':'b1'}",
            "{'kind':'add-tacet-number','before':'end','label':'9','title':''}",
            "{'kind':'verify-page','page':1,'verified':true}",
            "{'kind':'add-system','page':1,'outline':[[100,900],[1300,900],[1300,980],[100,980]]}",
            "{'kind':'remove-system','page':1,'system':2}");
    Draft marked =
        done(new BarCorrection.SetRehearsal("b1", "A", org.barmap.map.Enclosure.BOX)).draft();
    for (String document : documents) {
      Correction correction =
          BarMapJson.mapper().readValue(document.replace('\'', '"'), Correction.class);
      assertThat(Editing.correct(marked, correction)).as(document).isInstanceOf(Outcome.Done.class);
      String json = BarMapJson.mapper().writerFor(Correction.class).writeValueAsString(correction);
      assertThat(BarMapJson.mapper().readValue(json, Correction.class)).isEqualTo(correction);
    }
  }

  @Test
  void anEmptyCorrectionOfAnyKindIsRefusedAndNeverThrows() {
    for (String kind :
        List.of(
            "set-count",
            "set-content",
            "set-rehearsal",
            "set-meter",
            "set-key",
            "set-silence",
            "set-number",
            "add-barline",
            "move-barline",
            "move-rehearsal",
            "remove-barline",
            "set-barline",
            "set-ending",
            "set-sign",
            "set-times",
            "set-words",
            "start-number",
            "remove-number",
            "add-tacet-number",
            "verify-page",
            "add-system",
            "remove-system",
            "dismiss-doubt",
            "set-label")) {
      Correction correction =
          BarMapJson.mapper().readValue("{\"kind\":\"" + kind + "\"}", Correction.class);
      assertThat(refused(correction)).as(kind).isNotEmpty();
    }
  }
}
