package org.barmap.plan.words.bar;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.term.Figures;

/**
 * The first or the last bar of a stretch.
 *
 * @param ats the bars that may be meant; empty when refused
 * @param mark they were named by a rehearsal mark alone
 * @param why why there is more than one, or none
 * @param candidates when refused
 */
public record Edge(List<Edge.At> ats, boolean mark, String why, List<String> candidates) {
  private static final Pattern NOTE =
      Pattern.compile(
          ".*\\b(?:half|quarter|eighth|sixteenth|minim|crotchet|quaver|semiquaver)s?\\s+\\d{1,2}",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern THE_BAR =
      Pattern.compile("(?:the\\s+)?(?:bar|measure)\\s+(?:at|of)\\s.*", Pattern.CASE_INSENSITIVE);

  /**
   * One bar, or a beat of it.
   *
   * @param place where it is
   * @param name its address
   * @param sure its beat can't be another: it was named by its note
   */
  public record At(Place place, String name, boolean sure) {}

  /** Takes defensive copies. */
  public Edge {
    ats = List.copyOf(ats);
    candidates = List.copyOf(candidates);
  }

  /** Whether it is no bar of the number. */
  public boolean refused() {
    return ats.isEmpty();
  }

  /** The bar as it was said; where that may be several, each by its own name. */
  public static Edge at(Scope scope, String words) {
    String said = Edges.bare(words);
    Scope.Looked looked = scope.find(said);
    boolean one = looked.places().size() == 1;
    boolean sure = NOTE.matcher(said).matches();
    List<At> ats =
        looked.places().stream().map(p -> new At(p, one ? said : name(scope, p), sure)).toList();
    boolean mark = looked.mark() && !THE_BAR.matcher(words.strip()).matches();
    return new Edge(ats, mark, looked.why(), looked.candidates());
  }

  /** The same bars moved. */
  Edge moved(Scope scope, UnaryOperator<Place> how) {
    List<At> moved =
        ats.stream()
            .map(a -> how.apply(a.place()))
            .map(p -> new At(p, name(scope, p), ats.get(0).sure()))
            .toList();
    return new Edge(moved, false, why, candidates);
  }

  /** These bars or those. */
  Edge or(Edge other, String because) {
    List<At> both = new java.util.ArrayList<>(ats);
    both.addAll(other.ats);
    return new Edge(both, false, because, candidates);
  }

  static Edge slot(Scope scope, int slot) {
    Place place = Place.bar(slot);
    return new Edge(List.of(new At(place, name(scope, place), true)), false, "", List.of());
  }

  /** A beat of a bar, counted as the meter counts. */
  static Edge beat(Scope scope, int slot, int beat) {
    Place place = new Place(slot, OptionalDouble.of(beat));
    return new Edge(List.of(new At(place, name(scope, place), true)), false, "", List.of());
  }

  private static String name(Scope scope, Place place) {
    boolean there = place.slot() >= 0 && place.slot() < scope.slots();
    String bar = there ? scope.nameAt(place.slot()) : "a bar that isn't there";
    OptionalDouble beat = place.beat();
    return beat.isPresent() ? bar + " beat " + Figures.plain(beat.getAsDouble()) : bar;
  }
}
