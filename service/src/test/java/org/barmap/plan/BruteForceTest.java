package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;

/** The order of play against a naive player, and totals over random cuts; seeded. */
class BruteForceTest {

  @Test
  void tenThousandRandomFormsSoundAsTheNaivePlayerPlaysThem() {
    Random random = new Random(20261124);
    Set<String> forms = new HashSet<>();
    for (int i = 0; i < 10_000; i++) {
      String written = form(random);
      forms.add(written);
      BarMap map = Books.book(written);
      Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
      List<String> expected = new NaivePlayer(map.bars()).play();
      List<String> sounds =
          plan.numbers().get(0).order().stream().map(NumberPlan.Entry::bar).toList();
      // where no sign begins a repeat and another one is before it both ways are shown as well
      List<PlanFinding> findings =
          plan.findings().stream().filter(f -> !f.code().equals("repeat-not-begun")).toList();
      if (!findings.isEmpty() || !sounds.equals(expected)) {
        assertThat(findings).as(written).isEmpty();
        assertThat(sounds).as(written).isEqualTo(expected);
      }
    }
    assertThat(forms.size()).isGreaterThan(8_000);
  }

  @Test
  void withACutTheRestSoundsAsBeforeAndTotalsAddUp() {
    Random random = new Random(7);
    int cuts = 0;
    for (int i = 0; i < 3_000; i++) {
      String written = form(random);
      BarMap map = Books.book(written);
      int bars = map.bars().size();
      int first = 1 + random.nextInt(bars);
      int last = Math.min(bars, first + random.nextInt(3));
      Set<String> out = new HashSet<>();
      boolean plain = true;
      for (int b = first; b <= last; b++) {
        Bar bar = map.bars().get(b - 1);
        out.add(bar.id());
        plain &= !written.matches(".*(?:^|\\s)(?:\\|:)?" + b + "(?:/\\S*|\\S*[:@]\\S*)(?:\\s.*|$)");
      }
      NumberPlan whole = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL).numbers().get(0);
      NumberPlan rest =
          Planner.plan(map, Changes.cut("" + first, "" + last), PlanSettings.USUAL)
              .numbers()
              .get(0);
      if (plain) {
        cuts++;
        List<String> expected =
            whole.order().stream()
                .map(NumberPlan.Entry::bar)
                .filter(id -> !out.contains(id))
                .toList();
        assertThat(rest.order().stream().map(NumberPlan.Entry::bar))
            .as(written + " without " + first + "-" + last)
            .containsExactlyElementsOf(expected);
        assertThat(rest.played().bars() + rest.cut().bars()).isEqualTo(whole.played().bars());
        assertThat(rest.played().beats().orElse(0.0) + rest.cut().beats().orElse(0.0))
            .isEqualTo(whole.played().beats().orElse(-1.0));
      }
      assertThat(rest.order().stream().map(NumberPlan.Entry::bar)).doesNotContainAnyElementsOf(out);
    }
    assertThat(cuts).isGreaterThan(500);
  }

  /** A cut that does more than leave its bars out never does so without a word. */
  @Test
  void aCutThatChangesTheFormIsAlwaysNamed() {
    Random random = new Random(11);
    int named = 0;
    int silent = 0;
    for (int i = 0; i < 5_000; i++) {
      String written = form(random);
      BarMap map = Books.book(written);
      int first = 1 + random.nextInt(map.bars().size());
      int last = Math.min(map.bars().size(), first + random.nextInt(4));
      Set<String> out = new HashSet<>();
      map.bars().subList(first - 1, last).forEach(b -> out.add(b.id()));
      List<String> filtered = new ArrayList<>(new NaivePlayer(map.bars()).play());
      filtered.removeIf(out::contains);
      Plan plan = Planner.plan(map, Changes.cut("" + first, "" + last), PlanSettings.USUAL);
      List<String> sounds =
          plan.numbers().get(0).order().stream().map(NumberPlan.Entry::bar).toList();
      boolean warned =
          plan.findings().stream().anyMatch(f -> f.severity() != org.barmap.map.Severity.INFO);
      if (!sounds.equals(filtered) && !warned) {
        assertThat(sounds).as(written + " without " + first + "-" + last).isEqualTo(filtered);
      }
      named += warned ? 1 : 0;
      silent += warned ? 0 : 1;
    }
    assertThat(named).isGreaterThan(1_000);
    assertThat(silent).isGreaterThan(1_000);
  }

  /**
   * With any set of cuts in repeated and jumping forms: what sounds in each pass, and the totals.
   */
  @Test
  void inEveryPassWhatIsPlayedAndWhatIsCutIsWhatIsWritten() {
    Random random = new Random(5);
    int sets = 0;
    for (int i = 0; i < 3_000; i++) {
      String written = form(random);
      BarMap map = Books.book(written);
      Set<Integer> out = new java.util.TreeSet<>();
      for (int c = 0; c < 3; c++) {
        int bar = 1 + random.nextInt(map.bars().size());
        String token = written.split(" ")[bar - 1];
        if (token.matches("\\d+")) { // no sign, ending or repeat at it
          out.add(bar);
        }
      }
      if (out.isEmpty()) {
        continue;
      }
      sets++;
      List<String> cuts =
          out.stream()
              .map(
                  b ->
                      "{\"id\":\"c%d\",\"kind\":\"cut\",\"first\":\"%d\",\"last\":\"%d\"}"
                          .formatted(b, b, b))
              .toList();
      String json = "{\"format\":\"changes/1\",\"changes\":[" + String.join(",", cuts) + "]}";
      NumberPlan whole = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL).numbers().get(0);
      NumberPlan rest =
          Planner.plan(map, ChangesJson.read(json), PlanSettings.USUAL).numbers().get(0);
      List<NumberPlan.Entry> left =
          whole.order().stream()
              .filter(e -> !out.contains(Integer.valueOf(e.bar().substring(1))))
              .toList();
      assertThat(rest.order()).as(written + " without " + out).isEqualTo(left);
      int bars = whole.order().size() - left.size();
      assertThat(rest.cut().bars()).as(written + " without " + out).isEqualTo(bars);
      assertThat(rest.played().bars() + rest.cut().bars()).isEqualTo(whole.played().bars());
      assertThat(rest.played().beats().orElse(0.0) + rest.cut().beats().orElse(0.0))
          .isEqualTo(whole.played().beats().orElse(-1.0));
    }
    assertThat(sets).isGreaterThan(1_000);
  }

  /** Where every bar sounds once, played + cut = written over any set of cuts, beats included. */
  @Test
  void playedAndCutAreWritten() {
    Random random = new Random(99);
    for (int i = 0; i < 500; i++) {
      StringBuilder written = new StringBuilder();
      int at = 1;
      while (at < 60) {
        int rest = random.nextInt(4) == 0 ? 2 + random.nextInt(9) : 1;
        String meter = random.nextInt(6) == 0 ? (random.nextBoolean() ? "@3/4" : "@6/8") : "";
        written.append(at).append(rest > 1 ? "@mr" + rest : "").append(meter).append(' ');
        at += rest;
      }
      int end = at - 1;
      BarMap map = Books.book(written.toString());
      NumberPlan whole = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL).numbers().get(0);
      List<String> cuts = new ArrayList<>();
      for (int c = 0; c < 3; c++) {
        int first = 1 + random.nextInt(end);
        int last = first + random.nextInt(Math.min(12, end - first + 1));
        String from = random.nextBoolean() ? " beat 2" : "";
        String to = random.nextBoolean() ? " beat 2" : "";
        cuts.add(
            "{\"id\":\"c"
                + c
                + "\",\"kind\":\"cut\",\"first\":\""
                + first
                + from
                + "\",\"last\":\""
                + last
                + to
                + "\"}");
      }
      String json = "{\"format\":\"changes/1\",\"changes\":[" + String.join(",", cuts) + "]}";
      NumberPlan rest =
          Planner.plan(map, ChangesJson.read(json), PlanSettings.USUAL).numbers().get(0);
      assertThat(whole.played().bars()).isEqualTo(whole.written()).isEqualTo(end);
      assertThat(rest.played().bars() + rest.cut().bars()).as(json + written).isEqualTo(end);
      assertThat(rest.played().beats().orElse(0.0) + rest.cut().beats().orElse(0.0))
          .as(json + written)
          .isCloseTo(
              whole.played().beats().orElse(-1.0), org.assertj.core.data.Offset.offset(0.02));
    }
  }

  /** Strains, some repeated, nested, with endings; then perhaps a D.C. or D.S. with its signs. */
  private static String form(Random random) {
    List<String> bars = new ArrayList<>();
    int strains = 1 + random.nextInt(4);
    for (int s = 0; s < strains; s++) {
      strain(random, bars, s == 0);
    }
    int main = bars.size();
    if (main > 1 && random.nextInt(2) == 0) {
      boolean segno = random.nextBoolean();
      int target = 0;
      if (segno) {
        do {
          target = random.nextInt(main);
        } while (bars.get(target).contains("/")); // no one goes back into the middle of an ending
        bars.set(target, bars.get(target) + "@segno");
      }
      bars.set(main - 1, bars.get(main - 1) + (segno ? "@ds" : "@dc"));
      int how = random.nextInt(3);
      int sign = target + random.nextInt(main - target);
      if (how == 1 && sign < main - 1) {
        bars.set(sign, bars.get(sign) + "@fine");
      } else if (how == 2) {
        bars.set(sign, bars.get(sign) + "@to");
        int coda = bars.size();
        strain(random, bars, false);
        bars.set(coda, bars.get(coda) + "@coda");
      }
      if (random.nextBoolean()) {
        strain(random, bars, false);
      }
    }
    return String.join(" ", bars);
  }

  private static void strain(Random random, List<String> bars, boolean first) {
    int from = bars.size();
    int length = 1 + random.nextInt(4);
    for (int i = 0; i < length; i++) {
      bars.add(Integer.toString(bars.size() + 1));
    }
    int kind = random.nextInt(5);
    if (kind == 0) {
      return;
    }
    boolean open = first && random.nextInt(3) == 0;
    if (!open) {
      bars.set(from, "|:" + bars.get(from));
    }
    if (kind <= 2) {
      int last = bars.size() - 1;
      int inner = from + 1;
      if (kind == 2 && last - inner >= 2) {
        bars.set(inner, "|:" + bars.get(inner));
        bars.set(inner + 1, bars.get(inner + 1) + ":|");
      }
      bars.set(last, bars.get(last) + ":|" + (random.nextInt(3) == 0 ? "x3" : ""));
      return;
    }
    int endings = 2 + random.nextInt(2);
    for (int e = 1; e <= endings; e++) {
      int size = 1 + random.nextInt(2);
      String list = e == 1 && endings == 3 && random.nextBoolean() ? "1,2" : Integer.toString(e);
      if (list.equals("1,2")) {
        e = 2;
      }
      for (int i = 1; i <= size; i++) {
        boolean closes = i == size && e < endings;
        bars.add((bars.size() + 1) + "/" + list + (closes ? ":|" : ""));
      }
    }
  }
}
