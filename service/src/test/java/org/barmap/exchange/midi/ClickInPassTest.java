package org.barmap.exchange.midi;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.IntStream;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.Sequence;
import javax.sound.midi.Track;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.RunSheet;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.sheet.SheetKind;
import org.barmap.sheet.SheetSettings;
import org.barmap.sheet.Sheets;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

/**
 * What holds in one pass of a repeat, in the click and on the sheets, against the order worked out
 * here bar by bar: random books with one repeat and its endings, random changes in one pass.
 */
class ClickInPassTest {
  private static final int BOOKS = Integer.getInteger("barmap.passBooks", 300);

  /**
   * One repeat: bars before it, bars in it without endings, the first ending, the last one, bars
   * behind it, and how often it is played.
   */
  private record Form(int before, int body, int first, int last, int behind, int times) {
    static Form any(Random random) {
      boolean endings = random.nextBoolean();
      return new Form(
          random.nextInt(4),
          2 + random.nextInt(6),
          endings ? 1 + random.nextInt(3) : 0,
          endings ? 1 + random.nextInt(3) : 0,
          1 + random.nextInt(4),
          endings ? 2 : 2 + random.nextInt(3));
    }

    /** As the cases write it. */
    String book() {
      String front = before == 0 ? "" : "m" + before + " ";
      String round =
          first == 0
              ? "|: m" + body + (times == 2 ? "" : " x" + times) + " :| "
              : "|: m" + body + " [1 m" + first + " :| [2 m" + last + " ] ";
      return "#1 4/4 '♩ = 120' " + front + round + "m" + behind;
    }

    int repeatEnds() {
      return before + body + first;
    }

    /** The bars of the repeat that come in every time through. */
    int firstOfBody() {
      return before + 1;
    }

    /** The bars in the order they sound, each with its time through. */
    List<int[]> played() {
      List<int[]> all = new ArrayList<>();
      IntStream.rangeClosed(1, before).forEach(b -> all.add(new int[] {b, 1}));
      for (int t = 1; t <= times; t++) {
        int time = t;
        IntStream.rangeClosed(before + 1, before + body).forEach(b -> all.add(new int[] {b, time}));
        if (first > 0) {
          int from = t < times ? before + body + 1 : repeatEnds() + 1;
          int to = t < times ? repeatEnds() : repeatEnds() + last;
          IntStream.rangeClosed(from, to).forEach(b -> all.add(new int[] {b, 1}));
        }
      }
      int from = repeatEnds() + last + 1;
      IntStream.range(from, from + behind).forEach(b -> all.add(new int[] {b, 1}));
      return all;
    }
  }

  /** A change in one pass, for bars of the repeat that come in every time through. */
  private record Said(String kind, int first, int last, int time, String pass) {
    static Said any(Random random, Form form, String kind) {
      int first = form.firstOfBody() + random.nextInt(form.body());
      int last = first + random.nextInt(form.firstOfBody() + form.body() - first);
      int time = 1 + random.nextInt(form.times());
      boolean end = time == form.times() && random.nextBoolean();
      return new Said(kind, first, last, time, end ? "last" : Integer.toString(time));
    }

    ShowChange change() {
      ObjectNode node =
          BarMapJson.mapper()
              .createObjectNode()
              .put("id", kind)
              .put("number", "1")
              .put("kind", kind)
              .put("first", Integer.toString(first))
              .put("last", Integer.toString(last))
              .put("pass", pass);
      return ChangesJson.readOne(kind.equals("vamp") ? node.put("leave", "end-of-pass") : node);
    }

    boolean holds(int[] bar) {
      return bar[0] >= first && bar[0] <= last && bar[1] == time;
    }

    /** As it is said on a sheet. */
    String says() {
      String time =
          this.time == 1 ? "1st" : this.time == 2 ? "2nd" : this.time == 3 ? "3rd" : "4th";
      String bars = first == last ? "" + first : first + "-" + last;
      return bars + " " + (pass.equals("last") ? "last" : time) + " time";
    }
  }

  /** A book and what is said of one of its passes. */
  private record Drawn(Form form, Said said, BarMap map, ShowChanges changes) {

    static Drawn any(int seed, String kind) {
      Random random = new Random(seed);
      Form form = Form.any(random);
      Said said = Said.any(random, form, kind);
      ShowChanges changes = new ShowChanges(List.of(said.change()));
      return new Drawn(form, said, BookNotation.read(form.book()).map(), changes);
    }
  }

  static IntStream seeds() {
    return IntStream.range(0, BOOKS);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void barsThatAreOutInOnePassAreOutInTheClickAndOnTheSheets(int seed) throws Exception {
    Drawn drawn = Drawn.any(seed, "cut");
    Form form = drawn.form();
    Said cut = drawn.said();
    BarMap map = drawn.map();
    ShowChanges changes = drawn.changes();
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    String why = form.book() + ": cut " + cut.says();
    List<String> expected =
        form.played().stream().filter(b -> !cut.holds(b)).map(b -> Integer.toString(b[0])).toList();

    assertThat(clicked(plan, map)).as(why).isEqualTo(expected);
    assertThat(clicks(plan, map)).as(why).isEqualTo(4 * expected.size());
    assertThat(plan.runSheet().get(0).cuts()).as(why).containsExactly(cut.says());
    assertThat(text(map, changes, plan, SheetKind.RUN_SHEET)).as(why).contains("CUT " + cut.says());
    assertThat(text(map, changes, plan, SheetKind.STAND)).as(why).contains("CUT " + cut.says());
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void aVampOfOnePassIsOneThereAndNowhereElse(int seed) throws Exception {
    Drawn drawn = Drawn.any(seed, "vamp");
    Form form = drawn.form();
    Said vamp = drawn.said();
    BarMap map = drawn.map();
    ShowChanges changes = drawn.changes();
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    String why = form.book() + ": vamp " + vamp.says();

    assertThat(clicked(plan, map))
        .as(why)
        .isEqualTo(form.played().stream().map(b -> Integer.toString(b[0])).toList());
    List<Integer> there = new ArrayList<>();
    List<String> texts = texts(plan, map);
    for (int i = 0; i < texts.size(); i++) {
      if (texts.get(i).contains("vamp")) {
        there.add(i);
        assertThat(texts.get(i)).as(why).contains("vamp " + vamp.says());
      }
    }
    int at = -1;
    List<int[]> played = form.played();
    for (int i = 0; i < played.size() && at < 0; i++) {
      at = vamp.holds(played.get(i)) ? i : -1;
    }
    assertThat(there).as(why).containsExactly(at);
    RunSheet.Open open = plan.runSheet().get(0).vamps().get(0);
    assertThat(open.bars() + open.pass().map(p -> " " + p).orElse(""))
        .as(why)
        .isEqualTo(vamp.says());
    assertThat(text(map, changes, plan, SheetKind.RUN_SHEET))
        .as(why)
        .contains("VAMP " + vamp.says());
    assertThat(text(map, changes, plan, SheetKind.SUBSTITUTE)).as(why).contains(vamp.says());
  }

  /** What stands over each bar that is clicked, the bar counted in left out. */
  private static List<String> texts(Plan plan, BarMap map) throws Exception {
    Sequence click = ClickTrack.sequence(plan, map, Optional.of("1"), OptionalDouble.empty());
    List<String> texts = new ArrayList<>();
    for (Track track : click.getTracks()) {
      for (int i = 0; i < track.size(); i++) {
        MidiEvent event = track.get(i);
        if (event.getMessage() instanceof MetaMessage meta && meta.getType() == 0x06) {
          texts.add(new String(meta.getData(), StandardCharsets.UTF_8));
        }
      }
    }
    return texts.stream().filter(t -> !t.contains("count-in")).toList();
  }

  private static List<String> clicked(Plan plan, BarMap map) throws Exception {
    return texts(plan, map).stream().map(t -> t.split("[ (]", 2)[0]).toList();
  }

  private static int clicks(Plan plan, BarMap map) throws Exception {
    Sequence click = ClickTrack.sequence(plan, map, Optional.of("1"), OptionalDouble.empty());
    int clicks = 0;
    for (Track track : click.getTracks()) {
      for (int i = 0; i < track.size(); i++) {
        byte[] message = track.get(i).getMessage().getMessage();
        boolean on = (message[0] & 0xF0) == 0x90 && message.length > 2 && message[2] > 0;
        boolean beat = on && (message[1] == ClickTrack.STRONG || message[1] == ClickTrack.WEAK);
        clicks += beat ? 1 : 0;
      }
    }
    return clicks;
  }

  private static String text(BarMap map, ShowChanges changes, Plan plan, SheetKind kind)
      throws Exception {
    byte[] pdf = Sheets.pdf(map, changes, plan, List.of(kind), SheetSettings.USUAL);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
    }
  }
}
