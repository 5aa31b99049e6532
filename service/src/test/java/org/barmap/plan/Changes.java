package org.barmap.plan;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.ChangeWords;

/** Changes said in words, for tests. */
public final class Changes {
  private Changes() {}

  /** Returns the changes said; fails when something is asked back. */
  public static ShowChanges said(BarMap map, String words) {
    List<ShowChange> changes = new ArrayList<>();
    for (Heard<ShowChange> heard : ChangeWords.understand(map, words)) {
      if (!(heard instanceof Heard.Understood<ShowChange> understood)) {
        throw new AssertionError(heard.toString());
      }
      changes.add(understood.change());
    }
    return new ShowChanges(changes);
  }

  /** Returns changes as the format writes each. */
  public static ShowChanges json(String changes) {
    return ChangesJson.read("{\"format\":\"changes/1\",\"changes\":[" + changes + "]}");
  }

  /** Returns one cut, both bars by their addresses. */
  public static ShowChanges cut(String first, String last) {
    return json(
        "{\"id\":\"c\",\"kind\":\"cut\",\"first\":\"%s\",\"last\":\"%s\"}".formatted(first, last));
  }

  /** Plans a book with changes said in words. */
  public static Plan plan(String written, String words) {
    BarMap map = Books.book(written);
    return Planner.plan(map, said(map, words), PlanSettings.USUAL);
  }
}
