package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Added;
import org.barmap.plan.change.effect.Put;

/** The bars that changes add: where they go, what they are called, on which side of a sign. */
final class NewBars {

  /**
   * The bars of one change.
   *
   * @param span the change
   * @param pieces the bars in order
   * @param first they stand after the bar of the change, not before it
   * @param takesSigns the signs at that edge of the bar stand beyond them
   * @param stays they are played though bars around them are cut
   */
  record Row(Span span, List<Piece> pieces, boolean after, boolean takesSigns, boolean stays) {}

  private static final List<Navigation> END_SIGNS =
      List.of(Navigation.DA_CAPO, Navigation.DAL_SEGNO, Navigation.FINE, Navigation.TO_CODA);

  private static final List<Navigation> JUMPS = List.of(Navigation.DA_CAPO, Navigation.DAL_SEGNO);

  private final WrittenNumber number;
  private final BarNames names;
  private final NewBarsAsked asks;
  private final TreeMap<Integer, List<Row>> rows = new TreeMap<>();
  private final Map<Integer, Integer> counted = new HashMap<>();

  /** Bars whose D.C. or D.S. isn't followed. */
  private final Set<Integer> notJumping = new HashSet<>();

  NewBars(WrittenNumber number, List<Span> spans, Choices choices) {
    this.number = number;
    this.names = new BarNames(number);
    this.asks = new NewBarsAsked(number, names, spans, choices);
    for (Span span : spans) {
      span.effects()
          .course()
          .put()
          .flatMap(Put::without)
          .filter(Put.Printed.JUMP::equals)
          .ifPresent(p -> notJumping.add(span.from()));
    }
    for (Span span : spans) {
      span.effects().added().ifPresent(a -> add(span, a));
    }
  }

  /** Returns the bars that come before a slot, by that slot. */
  TreeMap<Integer, List<Row>> rows() {
    return rows;
  }

  private void add(Span span, Added added) {
    int host = span.from();
    int before = added.before() ? host : host + 1;
    List<Row> here = rows.computeIfAbsent(before, k -> new ArrayList<>());
    asks.content(span, added);
    asks.labels(span, added);
    int where = here.isEmpty() ? 0 : asks.order(span, added, here);
    if (where < 0) {
      return; // said twice, it counts once
    }
    boolean stays = asks.stays(span, added);
    boolean signs = added.before() ? startSigns(host) : endSigns(host);
    boolean takes =
        signs && !asks.isCut(host) && asks.takesSigns(span, added, says(host, added.before()));
    Row row =
        new Row(span, pieces(span, added, before, signs, takes), !added.before(), takes, stays);
    // those inside a sign stand nearer to their bar than those behind it
    here.add(where > 0 ? 0 : here.size(), row);
    here.sort((a, b) -> rank(a) - rank(b));
  }

  private static int rank(Row row) {
    return row.after() ? row.takesSigns() ? 0 : 1 : row.takesSigns() ? 3 : 2;
  }

  private List<Piece> pieces(Span span, Added added, int before, boolean signs, boolean takes) {
    Bar host = number.barAt(span.from());
    Bar made = made(span, added, signs, takes);
    List<String> labels = added.labels();
    List<Piece> pieces = new ArrayList<>();
    String spoken = (added.before() ? "before " : "after ") + number.nameAt(span.from());
    for (int k = 0; k < added.bars(); k++) {
      Optional<String> label = labels.isEmpty() ? Optional.empty() : Optional.of(labels.get(k));
      String name = label.orElseGet(() -> counted(before));
      Inserted inserted =
          new Inserted(
              span.change().meta().id(),
              host,
              label,
              label.orElse(spoken),
              name,
              k + 1,
              added.meter(),
              added.rest().isPresent());
      Piece piece = Piece.added(made, before, inserted);
      boolean first = takes && added.before() && k == 0;
      boolean last = takes && !added.before() && k == added.bars() - 1;
      pieces.add(piece.withSigns(first, last));
    }
    return pieces;
  }

  private String counted(int before) {
    int k = counted.merge(before, 1, Integer::sum);
    return (before == 0 ? "0" : names.at(before - 1)) + "+" + k;
  }

  /** A bar at the place of its host on the page, without anything that is drawn there. */
  private Bar made(Span span, Added added, boolean signs, boolean takes) {
    Bar host = number.barAt(span.from());
    Optional<Meter> meter = added.meter().or(() -> host.meter().map(m -> m.withPrinted(false)));
    boolean outside = signs && !takes;
    int beyond = added.before() ? span.from() - 1 : span.from() + 1;
    List<Integer> ending =
        !outside
            ? host.ending()
            : beyond < 0 || beyond >= number.slots() ? List.of() : number.barAt(beyond).ending();
    return Bar.builder(host.id(), host.page(), host.system(), host.outline())
        .number(host.number())
        .label(Optional.empty())
        .meter(meter)
        .key(host.key().map(k -> k.withPrinted(false)))
        .content(added.rest().orElse(false) ? Content.REST : Content.MUSIC)
        .ending(ending)
        .confidence(host.confidence())
        .origin(host.origin())
        .build();
  }

  private boolean endSigns(int slot) {
    int entry = number.entryAt(slot);
    Bar bar = number.bars().get(entry);
    if (slot != number.starts()[entry] + bar.count() - 1) {
      return false;
    }
    boolean next =
        entry + 1 < number.bars().size()
            && number.bars().get(entry + 1).startBarline().endsRepeat();
    boolean sign =
        END_SIGNS.stream()
            .filter(s -> !notJumping.contains(slot) || !JUMPS.contains(s))
            .anyMatch(bar::has);
    return bar.endBarline().endsRepeat() || next || sign;
  }

  private boolean startSigns(int slot) {
    int entry = number.entryAt(slot);
    Bar bar = number.bars().get(entry);
    if (slot != number.starts()[entry]) {
      return false;
    }
    boolean before = entry > 0 && number.bars().get(entry - 1).endBarline().startsRepeat();
    return bar.startBarline().startsRepeat()
        || before
        || bar.has(Navigation.SEGNO)
        || bar.has(Navigation.CODA);
  }

  /** Returns how the sign at an edge of a bar is called. */
  private String says(int slot, boolean start) {
    Bar bar = number.barAt(slot);
    if (start) {
      return bar.has(Navigation.CODA)
          ? "the coda sign"
          : bar.has(Navigation.SEGNO) ? "the segno" : "the repeat sign";
    }
    return bar.has(Navigation.DA_CAPO)
        ? "the D.C."
        : bar.has(Navigation.DAL_SEGNO)
            ? "the D.S."
            : bar.has(Navigation.FINE)
                ? "the Fine"
                : bar.has(Navigation.TO_CODA) ? "the To Coda" : "the repeat sign";
  }
}
