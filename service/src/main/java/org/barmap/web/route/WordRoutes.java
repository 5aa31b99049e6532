package org.barmap.web.route;

import com.fasterxml.jackson.annotation.JsonInclude;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.ChangeWords;
import org.barmap.web.api.Requests;
import tools.jackson.databind.node.ObjectNode;

/** Changes in words: what would be understood, and what would follow. Nothing is stored. */
public record WordRoutes(Library library, Planning planning) {

  /** Longer than any cut list; the reader of words has a limit of its own on lines. */
  private static final int MOST_LETTERS = 100_000;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.post("/api/books/{b}/changes/understand", this::understand);
  }

  /**
   * One instruction.
   *
   * @param line as typed
   * @param understood the change it would be, without an id; empty when it is asked back
   * @param says what was understood, for the player to confirm
   * @param asks what is asked back
   * @param candidates what may have been meant
   * @param checks what would follow, with the changes in force and the lines before it
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record HeardLine(
      String line,
      Optional<ObjectNode> understood,
      Optional<String> says,
      Optional<String> asks,
      List<String> candidates,
      List<PlanFinding> checks) {}

  private void understand(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    BarMap map = Requests.draft(library, ctx).value().map();
    String text = Requests.text(Requests.body(ctx), "text", MOST_LETTERS);
    List<Heard<ShowChange>> heard = ChangeWords.understand(map, text);
    List<ShowChange> all = new ArrayList<>(planning.changes(book).changes());
    for (Heard<ShowChange> h : heard) {
      if (h instanceof Heard.Understood<ShowChange> understood) {
        all.add(understood.change());
      }
    }
    List<PlanFinding> findings = planning.plan(book, map, new ShowChanges(all)).findings();
    ctx.json(Map.of("lines", heard.stream().map(h -> line(h, findings)).toList()));
  }

  private static HeardLine line(Heard<ShowChange> heard, List<PlanFinding> findings) {
    if (heard instanceof Heard.Understood<ShowChange> understood) {
      String id = understood.change().meta().id();
      ObjectNode change = ChangesJson.tree(understood.change());
      change.remove("id");
      return new HeardLine(
          understood.said(),
          Optional.of(change),
          Optional.of(understood.sentence()),
          Optional.empty(),
          List.of(),
          findings.stream().filter(f -> f.change().filter(id::equals).isPresent()).toList());
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) heard;
    return new HeardLine(
        asked.said(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(asked.question()),
        asked.candidates(),
        List.of());
  }
}
