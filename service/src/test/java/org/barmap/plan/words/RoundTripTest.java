package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.exchange.CutList;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.Kinds;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.junit.jupiter.api.Test;

/** A cut list this project writes is read back as the same changes. */
class RoundTripTest {

  private static final String CHANGES =
      """
      { "format": "changes/1",
        "changes": [
          { "id": "1", "number": "7", "kind": "cut", "first": "34", "last": "49", "note": "scene change got shorter" },
          { "id": "2", "number": "7", "kind": "cut", "first": "12 beat 3", "last": "4 before B" },
          { "id": "w21", "number": "7", "kind": "cut", "first": "12", "last": "B" },
          { "id": "w22", "number": "7", "kind": "cut", "first": "B", "last": "B" },
          { "id": "w23", "number": "7", "kind": "cut", "first": "4 before B", "last": "4 before B" },
          { "id": "w24", "number": "7", "kind": "cut", "first": "B", "last": "end" },
          { "id": "w25", "number": "7", "kind": "cut", "first": "21 eighth 4", "last": "22 eighth 3" },
          { "id": "w26", "number": "7", "kind": "play", "first": "B", "last": "B", "times": 2 },
          { "id": "w27", "number": "7", "kind": "note", "text": "lighter, and cut the noise" },
          { "id": "w40", "number": "7", "kind": "note", "first": "B", "text": "wrong note", "errata": true },
          { "id": "w41", "number": "7", "kind": "note", "text": "the slur is missing", "errata": true },
          { "id": "w28", "number": "7", "kind": "note", "first": "B", "text": "look at Ann: she breathes" },
          { "id": "w29", "number": "7", "kind": "remind", "first": "B", "what": "text", "note": "breathe" },
          { "id": "w30", "number": "7", "kind": "remind", "first": "34", "what": "missed", "note": "B flat" },
          { "id": "3", "number": "7", "kind": "vamp", "first": "B", "last": "B + 1", "leave": "end-of-pass" },
          { "id": "4", "number": "7", "kind": "vamp", "first": "12", "last": "12", "leave": "any-time" },
          { "id": "5", "number": "7", "kind": "safety", "first": "60", "last": "61" },
          { "id": "6", "number": "9", "kind": "play", "first": "10", "last": "13", "times": 3 },
          { "id": "7", "number": "9", "kind": "play", "first": "10", "last": "13", "times": 1 },
          { "id": "8", "number": "9", "kind": "insert", "after": "24", "bars": 2, "label": "24A" },
          { "id": "9", "number": "12", "kind": "tacet" },
          { "id": "10", "number": "13", "kind": "cut-number" },
          { "id": "11", "number": "7", "kind": "tempo", "first": "1", "beat": "1/4", "perMinute": 132 },
          { "id": "12", "number": "7", "kind": "tempo", "first": "B", "beat": "3/8", "perMinute": 60.5 },
          { "id": "13", "number": "7", "kind": "beats", "first": "20", "last": "40", "beats": 2 },
          { "id": "20", "number": "7", "kind": "tempo", "first": "20", "last": "28", "beat": "1/4", "perMinute": 100, "toPerMinute": 132 },
          { "id": "18", "number": "7", "kind": "key", "first": "B", "fifths": -3 },
          { "id": "19", "number": "7", "kind": "key", "first": "34", "fifths": 0 },
          { "id": "14", "number": "7", "kind": "instrument", "first": "50", "to": "electric bass" },
          { "id": "15", "number": "7", "kind": "remind", "first": "57", "what": "watch" },
          { "id": "16", "number": "7", "kind": "remind", "first": "B", "what": "push" },
          { "id": "21", "number": "7", "kind": "link", "link": "attacca" },
          { "id": "22", "number": "7", "kind": "link", "link": "segue-as-one", "to": "9" },
          { "id": "23", "number": "7", "kind": "link", "link": "applause-segue", "seconds": 8 },
          { "id": "24", "number": "7", "kind": "link", "link": "segue", "to": "9", "seconds": 2.5, "cue": "the doorbell" },
          { "id": "25", "number": "9", "kind": "link", "link": "break" },
          { "id": "s0", "number": "7", "kind": "cut", "first": "34", "last": "49", "version": "matinee", "until": "2026-06-01", "note": "short interval" },
          { "id": "s1", "number": "7", "kind": "hold", "first": "34", "cue": "the door slams" },
          { "id": "s2", "number": "7", "kind": "hold", "after": "34" },
          { "id": "s3", "number": "7", "kind": "gp", "after": "34", "cue": "the second bell" },
          { "id": "s4", "number": "7", "kind": "gp", "first": "34" },
          { "id": "s5", "number": "7", "kind": "rit", "first": "34", "last": "36" },
          { "id": "s6", "number": "7", "kind": "accel", "first": "B", "last": "49" },
          { "id": "s7", "number": "7", "kind": "a-tempo", "first": "49" },
          { "id": "s7a", "number": "7", "kind": "tempo-word", "first": "49", "text": "a little faster" },
          { "id": "s7b", "number": "7", "kind": "without", "first": "34", "sign": "hold" },
          { "id": "s8", "number": "7", "kind": "meter", "first": "34", "last": "36", "meter": "3/4" },
          { "id": "s9", "number": "7", "kind": "transpose", "semitones": -3 },
          { "id": "s10", "number": "7", "kind": "transpose", "semitones": 2, "first": "B", "last": "end" },
          { "id": "s11", "number": "7", "kind": "track" },
          { "id": "s12", "number": "7", "kind": "restore", "first": "34", "last": "49" },
          { "id": "s13", "number": "7", "kind": "restore" },
          { "id": "s14", "number": "7", "kind": "jump", "from": "49", "to": "34" },
          { "id": "s15", "number": "7", "kind": "jump", "from": "49", "to": "34", "times": 3 },
          { "id": "s16", "number": "7", "kind": "jump", "from": "34", "toNumber": "9", "to": "12" },
          { "id": "s17", "number": "7", "kind": "repeats-after-jump" },
          { "id": "p21", "number": "7", "kind": "cut", "first": "34", "last": "49", "pass": "1" },
          { "id": "p22", "number": "7", "kind": "only", "first": "34", "last": "49", "pass": "last" },
          { "id": "p23", "number": "7", "kind": "not", "first": "B", "last": "end", "pass": "after-jump" },
          { "id": "p24", "number": "7", "kind": "not", "first": "34", "last": "34" },
          { "id": "17", "kind": "order", "numbers": ["9", "7"] } ] }
      """;

  @Test
  void whatIsWrittenIsUnderstood() {
    BarMap map =
        Books.book(
            "%7 " + Books.run("", 1, 19, "") + "20@mB 21 22@mr40 62 %9 91 92@mr40 %12 121 %13 131");
    ShowChanges changes = ChangesJson.read(CHANGES);
    assertThat(changes.changes())
        .extracting(c -> (Object) c.getClass())
        .as("every kind is said once at least")
        .containsAll(Kinds.all().toList());
    for (ShowChange change : changes.changes()) {
      String line = CutList.line(change);
      List<Heard<ShowChange>> heard = ChangeWords.understand(map, line);
      assertThat(heard).as(line).hasSize(1);
      assertThat(heard.get(0)).as(heard.toString()).isInstanceOf(Heard.Understood.class);
      var expected = ChangesJson.tree(change);
      var understood = ChangesJson.tree(((Heard.Understood<ShowChange>) heard.get(0)).change());
      expected.remove("id");
      understood.remove("id");
      assertThat(understood).as(line).isEqualTo(expected);
    }
  }
}
