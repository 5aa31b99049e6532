package org.barmap.plan.check;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Key;
import org.barmap.map.Navigation;
import org.barmap.plan.Books;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.PlanFinding;
import org.junit.jupiter.api.Test;

/**
 * What is said about a cut, against what a reader with a finger on the page finds: the bar before
 * the cut laid beside the bar after it, and the signs in it looked for outside. Seeded.
 */
class CheckBruteForceTest {

  private static final Set<String> KNOWN =
      Set.of(
          "cut-all",
          "cut-to-end",
          "cut-from-start",
          "cut-meter",
          "cut-key",
          "cut-turn",
          "cut-pages",
          "cut-across",
          "cut-repeat",
          "cut-segno",
          "cut-coda",
          "cut-to-coda",
          "cut-fine",
          "cut-jump");

  @Test
  void everyCutOfARandomBookIsJudgedAsTheNaiveReaderJudgesIt() {
    Random random = new Random(20261125);
    Set<String> met = new TreeSet<>();
    for (int i = 0; i < 4_000; i++) {
      String written = form(random);
      BarMap map = Books.book(written);
      int bars = map.bars().size();
      int first = 1 + random.nextInt(bars);
      int last = Math.min(bars, first + random.nextInt(4));
      String json =
          "{\"format\":\"changes/1\",\"changes\":[{\"id\":\"c\",\"kind\":\"cut\",\"first\":\""
              + first
              + "\",\"last\":\""
              + last
              + "\"}]}";
      Plan plan = Planner.plan(map, ChangesJson.read(json), PlanSettings.USUAL);
      Set<String> said =
          plan.findings().stream()
              .filter(f -> f.change().isPresent())
              .map(PlanFinding::code)
              .filter(KNOWN::contains)
              .collect(Collectors.toCollection(TreeSet::new));
      Set<String> expected = judged(map.bars(), first - 1, last - 1);
      assertThat(said).as(written + " without " + first + " to " + last).isEqualTo(expected);
      met.addAll(said);
    }
    assertThat(met).isEqualTo(new TreeSet<>(KNOWN));
  }

  private static Set<String> judged(List<Bar> bars, int first, int last) {
    Set<String> codes = new TreeSet<>();
    List<Bar> out = bars.subList(first, last + 1);
    signs(bars, out, codes);
    repeat(bars, first, last, codes);
    boolean before = first > 0;
    boolean after = last + 1 < bars.size();
    if (!before || !after) {
      codes.add(before ? "cut-to-end" : after ? "cut-from-start" : "cut-all");
      return codes;
    }
    Bar from = bars.get(first - 1);
    Bar to = bars.get(last + 1);
    if (!from.meter().orElseThrow().sameAs(to.meter().orElseThrow())) {
      codes.add("cut-meter");
    }
    if (from.key().isPresent() && !fifths(from).equals(fifths(to))) {
      codes.add("cut-key");
    }
    // odd pages lie on the right: 2 and 3 lie open together, a leaf is turned after 1, 3, 5
    int leaves = Math.abs(to.page() / 2 - from.page() / 2);
    if (leaves > 0) {
      codes.add(leaves == 1 ? "cut-turn" : "cut-pages");
    } else if (from.page() != to.page()) {
      codes.add("cut-across");
    }
    return codes;
  }

  private static Integer fifths(Bar bar) {
    return bar.key().map(Key::fifths).orElse(99);
  }

  private static void signs(List<Bar> bars, List<Bar> out, Set<String> codes) {
    List<Bar> left = bars.stream().filter(b -> !out.contains(b)).toList();
    if (has(out, Navigation.SEGNO) && has(left, Navigation.DAL_SEGNO)) {
      codes.add("cut-segno");
    }
    if (has(out, Navigation.CODA) && has(left, Navigation.TO_CODA)) {
      codes.add("cut-coda");
    }
    if (has(out, Navigation.TO_CODA) && has(left, Navigation.CODA)) {
      codes.add("cut-to-coda");
    }
    boolean jumpsBack = has(left, Navigation.DA_CAPO) || has(left, Navigation.DAL_SEGNO);
    if (has(out, Navigation.FINE) && jumpsBack) {
      codes.add("cut-fine");
    }
    if (has(out, Navigation.DA_CAPO) || has(out, Navigation.DAL_SEGNO)) {
      codes.add("cut-jump");
    }
  }

  private static boolean has(List<Bar> bars, Navigation sign) {
    return bars.stream().anyMatch(b -> b.has(sign));
  }

  /** One repeat at the most, so its sign belongs to the only forward one, or to the beginning. */
  private static void repeat(List<Bar> bars, int first, int last, Set<String> codes) {
    int end = -1;
    int start = 0;
    for (int i = 0; i < bars.size(); i++) {
      start = bars.get(i).startBarline() == Barline.REPEAT_START ? i : start;
      end = bars.get(i).endBarline() == Barline.REPEAT_END ? i : end;
    }
    boolean startOut = first <= start && start <= last;
    boolean endOut = first <= end && end <= last;
    if (end >= 0 && startOut != endOut) {
      codes.add("cut-repeat");
    }
  }

  /** A line of bars on pages with meters and keys, perhaps one repeat and one jump. */
  private static String form(Random random) {
    int bars = 2 + random.nextInt(9);
    String[] names = new String[bars];
    int page = 1 + random.nextInt(2);
    boolean keys = random.nextInt(3) > 0;
    for (int i = 0; i < bars; i++) {
      StringBuilder bar = new StringBuilder(Integer.toString(i + 1));
      if (i == 0 || random.nextInt(3) == 0) {
        page += i == 0 ? 0 : 1 + random.nextInt(3) / 2;
        bar.append("@p").append(page);
      }
      if (random.nextInt(4) == 0) {
        bar.append(random.nextBoolean() ? "@3/4" : "@4/4");
      }
      if (keys && (i == 0 || random.nextInt(4) == 0)) {
        bar.append("@k").append(random.nextInt(5) - 2);
      }
      names[i] = bar.toString();
    }
    jump(random, names);
    if (random.nextInt(3) == 0) {
      int start = random.nextInt(bars);
      int end = start + random.nextInt(bars - start);
      names[start] = "|:" + names[start];
      names[end] = names[end].replaceFirst("^((?:\\|:)?\\d+)", "$1:|");
    }
    return String.join(" ", names);
  }

  private static void jump(Random random, String[] names) {
    int main = 1 + random.nextInt(names.length);
    boolean segno = random.nextBoolean();
    if (main < 2 || random.nextInt(2) == 0) {
      return;
    }
    int target = segno ? random.nextInt(main) : 0;
    if (segno) {
      names[target] += "@segno";
    }
    names[main - 1] += segno ? "@ds" : "@dc";
    int how = random.nextInt(3);
    int sign = target + random.nextInt(main - target);
    if (how == 1 && sign < main - 1) {
      names[sign] += "@fine";
    } else if (how == 2 && main < names.length) {
      names[sign] += "@to";
      names[main] += "@coda";
    }
  }
}
