package org.barmap.plan.piece;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.barmap.plan.change.Address;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Added;

/** Where the bars are that changes add and name, so that other changes can name them too. */
final class AddedPlaces {

  /**
   * One added bar.
   *
   * @param after slot of the written bar it comes after; -1 before the first
   * @param nth its place among the bars added with it, 1 for the first
   * @param label what it is called
   */
  record Spot(int after, int nth, String label) {
    /** Returns its place among the slots, between the written bar it comes after and the next. */
    double place() {
      return after + nth / 1000.0;
    }
  }

  private final Map<String, Spot> spots = new HashMap<>();
  private final Map<String, List<String>> rows = new HashMap<>();

  AddedPlaces(WrittenNumber number, List<Span> spans) {
    for (Span span : spans) {
      span.effects().added().ifPresent(a -> add(number, span, a));
    }
  }

  private void add(WrittenNumber number, Span span, Added added) {
    int after = added.before() ? span.from() - 1 : span.from();
    List<String> labels = added.labels();
    for (int k = 0; k < labels.size(); k++) {
      String key = labels.get(k).toLowerCase(Locale.ROOT);
      boolean written =
          number.bars().stream().anyMatch(b -> b.label().filter(key::equalsIgnoreCase).isPresent());
      if (!written) {
        spots.putIfAbsent(key, new Spot(after, k + 1, labels.get(k)));
        rows.putIfAbsent(key, labels);
      }
    }
  }

  /** Returns the added bar that words name: "24B", "bar 24B", "24A + 1". */
  Optional<Spot> find(String words) {
    if (spots.isEmpty()) {
      return Optional.empty();
    }
    Optional<Address> said = Address.parse(words).filter(a -> a.beat().isEmpty());
    if (said.isEmpty()) {
      return Optional.empty();
    }
    String key = said.get().anchor().toLowerCase(Locale.ROOT);
    Optional<Spot> anchor = Optional.ofNullable(spots.get(key));
    if (anchor.isEmpty() || said.get().offset() == 0) {
      return anchor;
    }
    List<String> row = rows.getOrDefault(key, List.of());
    int at = anchor.get().nth() - 1 + said.get().offset();
    return at < 0 || at >= row.size()
        ? Optional.empty()
        : Optional.ofNullable(spots.get(row.get(at).toLowerCase(Locale.ROOT)));
  }
}
