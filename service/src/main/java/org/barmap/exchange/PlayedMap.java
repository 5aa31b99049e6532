package org.barmap.exchange;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Placement;
import org.barmap.map.Word;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.change.term.Figures;

/**
 * The bars as they sound, one after the other, as if the book had been written so: cuts are out,
 * what is inserted is in, and there are no repeats and jumps any more. Bars keep the numbers that
 * are printed. A vamp is there once, with its words.
 */
public final class PlayedMap {
  private static final Set<Navigation> HOLDS = EnumSet.of(Navigation.FERMATA, Navigation.CAESURA);

  /** Words of how often, which time and where to, which the order says now: "3X", "D.C.". */
  private static final Pattern PASSES =
      Pattern.compile(
          "(?i).*(?:\\d\\s*x\\b|\\bx\\s*\\d|\\btimes\\b|\\btwice\\b|\\b(?:x|time)s?\\s+only\\b"
              + "|\\bd\\.\\s?[cs]\\b|\\bda capo\\b|\\bdal segno\\b|\\bto coda\\b|\\bal (?:coda|fine)\\b).*"
              + "|(?i)\\s*\\(?(?:fine|coda|d[cs])[.)]*\\s*");

  private final Map<String, Bar> written;

  /** The written bar before each, by its id. */
  private final Map<String, String> before;

  private final List<Bar> bars = new ArrayList<>();
  private final List<MusicalNumber> numbers = new ArrayList<>();

  /** The written bar that was played to its end just now; empty after anything else. */
  private String played = "";

  private PlayedMap(BarMap map) {
    this.written = map.barsById();
    this.before = new HashMap<>();
    for (int i = 1; i < map.bars().size(); i++) {
      before.put(map.bars().get(i).id(), map.bars().get(i - 1).id());
    }
  }

  /** Returns the numbers that are played, in the order of the night. */
  public static BarMap of(BarMap map, Plan plan) {
    PlayedMap played = new PlayedMap(map);
    for (NumberPlan number : plan.numbers()) {
      played.number(number);
    }
    return BarMap.of(map.book(), List.of(), played.numbers, played.bars);
  }

  /** Returns the bars of each number of a plan, none of one that isn't played. */
  static List<List<Bar>> each(BarMap map, Plan plan) {
    PlayedMap played = new PlayedMap(map);
    List<List<Bar>> each = new ArrayList<>();
    for (NumberPlan number : plan.numbers()) {
      int first = played.bars.size();
      played.number(number);
      each.add(List.copyOf(played.bars.subList(first, played.bars.size())));
    }
    return each;
  }

  private void number(NumberPlan number) {
    int first = bars.size();
    number.order().forEach(this::entry);
    if (bars.size() == first) {
      return;
    }
    int last = bars.size() - 1;
    bars.set(last, bars.get(last).toBuilder().endBarline(Barline.FINAL).build());
    numbers.add(
        new MusicalNumber(
            number.label().isEmpty() ? "1" : number.label(),
            number.title(),
            Optional.of(bars.get(first).id()),
            Optional.of(bars.get(last).id()),
            false));
  }

  private void entry(NumberPlan.Entry entry) {
    Bar bar = written.get(entry.bar());
    if (bar == null) {
      return;
    }
    if (entry.inserted().isPresent()) {
      inserted(entry, bar);
      return;
    }
    int from = entry.from().orElse(1) - 1;
    int count = entry.bars().orElse(bar.count());
    BarBuilder built = plain(bar, count).number(bar.number() + from);
    if (from > 0) {
      built.rehearsal(Optional.empty()).label(Optional.empty());
    }
    built.words(said(from > 0 ? List.of() : bar.words()));
    boolean whole = from + count >= bar.count();
    built.endBarline(whole && bar.endBarline() == Barline.DOUBLE ? Barline.DOUBLE : Barline.SINGLE);
    built.signs(whole ? bar.signs().stream().filter(HOLDS::contains).toList() : List.of());
    boolean silent = bar.isRest() || entry.silent().isPresent();
    if (bar.content() == Content.BAR_REPEAT && !played.equals(before.get(bar.id()))) {
      // the bar that it says again is not the one before it any more
      built.content(Content.MUSIC);
    }
    played = whole && entry.beatsCut().isEmpty() ? bar.id() : "";
    if (silent) {
      built.content(count > 1 ? Content.MULTI_REST : Content.REST);
    }
    entry.beatsCut().ifPresent(cut -> shorten(bar, cut, built));
    bars.add(built.build());
  }

  private static List<Word> said(List<Word> words) {
    return words.stream().filter(w -> !PASSES.matcher(w.text()).matches()).toList();
  }

  /** Bars that are not in the book, one entry each. */
  private void inserted(NumberPlan.Entry entry, Bar after) {
    played = "";
    List<String> names = entry.added().map(NumberPlan.Added::names).orElse(List.of());
    boolean rest =
        entry.added().flatMap(NumberPlan.Added::content).filter("rest"::equals).isPresent();
    Optional<Meter> own = entry.added().flatMap(NumberPlan.Added::meter).map(PlayedMap::meter);
    int many = Math.max(entry.bars().orElse(1), names.size());
    for (int i = 0; i < many; i++) {
      BarBuilder built = plain(after, 1);
      built.label(i < names.size() ? names.get(i) : entry.inserted().orElse("") + "+" + (i + 1));
      built.number(after.number() + after.count() - 1);
      built.rehearsal(Optional.empty()).words(List.of()).signs(List.of());
      built.content(rest ? Content.REST : Content.MUSIC).endBarline(Barline.SINGLE);
      own.ifPresent(m -> built.meter(Optional.of(m)));
      bars.add(built.build());
    }
  }

  private static Meter meter(String said) {
    String[] figures = said.split("/", 2);
    return new Meter(Integer.parseInt(figures[0]), Integer.parseInt(figures[1]), false);
  }

  private BarBuilder plain(Bar bar, int count) {
    return bar.toBuilder()
        .id("p" + (bars.size() + 1))
        .page(1)
        .system(1)
        .count(count)
        .startBarline(Barline.NONE)
        .meter(bar.meter().map(m -> m.withPrinted(false)))
        .key(bar.key().map(k -> k.withPrinted(false)))
        .ending(List.of())
        .times(Optional.empty());
  }

  /** A bar with beats cut has a meter of what is left, where that is a meter; words say it. */
  private static void shorten(Bar bar, double cut, BarBuilder built) {
    bar.meter()
        .map(m -> new Meter((int) (m.beats() - cut), m.unit(), true))
        .filter(m -> m.beats() >= 1 && cut == Math.rint(cut))
        .ifPresent(m -> built.meter(Optional.of(m)));
    List<Word> words = new ArrayList<>(said(bar.words()));
    words.add(
        new Word(
            Figures.plain(cut) + (cut == 1 ? " beat out" : " beats out"),
            Placement.ABOVE,
            Optional.empty()));
    built.words(words);
  }
}
