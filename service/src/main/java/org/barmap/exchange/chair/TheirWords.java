package org.barmap.exchange.chair;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.barmap.exchange.CutList;
import org.barmap.map.BarMap;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.ChangeWords;

/**
 * Changes in words that name bars as the other part calls them: read in the other part, then said
 * in this one's bars. What has no sure bar here is asked back, never guessed.
 *
 * @param their the two parts, this one first
 * @param there the map of the other part
 */
public record TheirWords(TheirBars their, BarMap there) {

  /** Returns what was understood, in this part's bars, and what is asked back, line by line. */
  public List<Heard<ShowChange>> understand(String text) {
    List<Heard<ShowChange>> heard = new ArrayList<>();
    for (Heard<ShowChange> one : ChangeWords.understand(there, text)) {
      heard.add(
          one instanceof Heard.Understood<ShowChange> understood
              ? here(understood)
              : here((Heard.AskedBack<ShowChange>) one));
    }
    return heard;
  }

  private Heard<ShowChange> here(Heard.Understood<ShowChange> one) {
    Carrying.Carried carried = carried(List.of(one.change()));
    if (carried.changes().isEmpty()) {
      return new Heard.AskedBack<>(one.said(), why(carried), List.of());
    }
    ShowChange change = carried.changes().get(0);
    return new Heard.Understood<>(one.said(), change, says(change));
  }

  private Heard<ShowChange> here(Heard.AskedBack<ShowChange> one) {
    return new Heard.AskedBack<>(
        one.said(),
        "In " + their.whose() + "'s bars: " + one.question(),
        one.candidates(),
        one.readings().stream().map(this::here).toList(),
        one.keep().flatMap(k -> carried(List.of(k)).changes().stream().findFirst()));
  }

  private Heard.Reading<ShowChange> here(Heard.Reading<ShowChange> one) {
    Carrying.Carried carried = carried(one.changes());
    String theirs = their.whose() + "'s bars: " + one.says();
    if (!carried.left().isEmpty()) {
      return Heard.Reading.wanting(theirs + ": " + why(carried));
    }
    return one.changes().isEmpty()
        ? Heard.Reading.wanting(theirs)
        : new Heard.Reading<>(
            carried.changes().stream().map(this::says).collect(Collectors.joining("; ")),
            carried.changes());
  }

  /** Returns a change in both parts' bars: "No. 7: cut 42 to 57 [Director 34 to 49]". */
  public String says(ShowChange change) {
    return CutList.line(change) + their.beside(change).map(b -> " [" + b + "]").orElse("");
  }

  /** Returns changes of the other part said in this one's bars, and what has no sure bar here. */
  public Carrying.Carried carried(List<ShowChange> changes) {
    return Carrying.typed(their.parts().turned(), changes, their.whose());
  }

  private static String why(Carrying.Carried carried) {
    return carried.left().stream()
        .map(Carrying.Left::why)
        .distinct()
        .collect(Collectors.joining(" "));
  }
}
