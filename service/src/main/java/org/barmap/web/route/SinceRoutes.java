package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.exchange.CutList;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanDiff;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.web.planned.Planning;

/** What became different for the player since a moment, with the map as it is now. */
public record SinceRoutes(Library library, Planning planning) {

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/plan/since", this::since);
  }

  /**
   * A change that came, went or was put otherwise.
   *
   * @param before as it counted then, in words; empty when it did not
   * @param now as it counts now, in words; empty when it does not
   */
  private record ChangedWords(Optional<String> before, Optional<String> now) {}

  private void since(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    Instant moment = moment(ctx);
    BarMap map = Requests.draft(library, ctx).value().map();
    ShowChanges before =
        new ShowChanges(
            library.changes().at(book.id(), moment).stream().map(Planning::change).toList());
    ShowChanges now = planning.changes(book);
    Plan then = planning.plan(book, map, before);
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("since", moment);
    answer.put("changes", steps(before, now));
    answer.put("diff", PlanDiff.between(then, planning.plan(book, map, now)));
    ctx.json(answer);
  }

  private static Instant moment(Context ctx) {
    try {
      return Instant.parse(Optional.ofNullable(ctx.queryParam("moment")).orElse(""));
    } catch (DateTimeException e) {
      throw new ApiException(ApiError.REFUSED, "Say since when, as 2026-05-19T18:00:00Z");
    }
  }

  private static List<ChangedWords> steps(ShowChanges before, ShowChanges now) {
    Map<String, String> old = said(before);
    Map<String, String> young = said(now);
    List<ChangedWords> steps = new ArrayList<>();
    young.forEach(
        (id, words) -> {
          Optional<String> was = Optional.ofNullable(old.get(id));
          if (!was.equals(Optional.of(words))) {
            steps.add(new ChangedWords(was, Optional.of(words)));
          }
        });
    old.forEach(
        (id, words) -> {
          if (!young.containsKey(id)) {
            steps.add(new ChangedWords(Optional.of(words), Optional.empty()));
          }
        });
    return steps;
  }

  private static Map<String, String> said(ShowChanges changes) {
    Map<String, String> words = new LinkedHashMap<>();
    for (ShowChange change : changes.active()) {
      words.put(change.meta().id(), CutList.line(change));
    }
    return words;
  }
}
