package org.barmap.web.route;

import com.fasterxml.jackson.annotation.JsonInclude;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.exchange.chair.TheirWords;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.ChangeWords;
import org.barmap.plan.words.doubt.Topics;
import org.barmap.plan.words.earlier.Known;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.OtherPart;
import org.barmap.web.api.Requests;
import org.barmap.web.planned.Planning;
import tools.jackson.databind.node.ObjectNode;

/** Changes in words: what would be understood, and what would follow. Nothing is stored. */
public record WordRoutes(Library library, Planning planning) {

  /** Longer than any cut list; the reader of words has a limit of its own on lines. */
  private static final int MOST_LETTERS = 100_000;

  private static final int MOST_NAME = 10;

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
   * @param topic what that is about, as a plan's questions call it; empty where nobody can tell
   * @param candidates words that would be understood
   * @param readings what it may mean, each with the changes it would be; none where a word more is
   *     wanted
   * @param keep the note that would keep what is asked back
   * @param note it is no change, and is kept as a note
   * @param checks what would follow, with the changes in force and the lines before it
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record HeardLine(
      String line,
      Optional<ObjectNode> understood,
      Optional<String> says,
      Optional<String> asks,
      Optional<String> topic,
      List<String> candidates,
      List<Reading> readings,
      Optional<ObjectNode> keep,
      boolean note,
      List<PlanFinding> checks) {}

  /**
   * One way to understand a line.
   *
   * @param says it, short enough for a button
   * @param changes what it would do, without ids
   */
  public record Reading(String says, List<ObjectNode> changes) {}

  private void understand(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    BarMap map = Requests.draft(library, ctx).value().map();
    ObjectNode body = Requests.body(ctx);
    String text = Requests.text(body, "text", MOST_LETTERS);
    Optional<OtherPart> other = OtherPart.of(library, book.id());
    List<ShowChange> before = planning.changes(book).changes();
    String today = LocalDate.now(ZoneId.systemDefault()).toString();
    List<Heard<ShowChange>> heard =
        theirs(body)
            ? words(other).understand(text)
            : ChangeWords.understand(map, text, Known.of(before, Optional.of(today))).stream()
                .map(h -> both(h, other))
                .toList();
    List<ShowChange> all = new ArrayList<>(before);
    for (Heard<ShowChange> h : heard) {
      if (h instanceof Heard.Understood<ShowChange> understood) {
        all.add(understood.change());
      }
    }
    List<PlanFinding> findings = planning.plan(book, map, new ShowChanges(all)).findings();
    ctx.json(Map.of("lines", heard.stream().map(h -> line(h, findings)).toList()));
  }

  /** Whose bar numbers the words go by: those of this part, unless they say "other". */
  private static boolean theirs(ObjectNode body) {
    String numbers = Requests.text(body, "numbers", MOST_NAME);
    if (!numbers.isEmpty() && !numbers.equals("mine") && !numbers.equals("other")) {
      throw new ApiException(ApiError.BAD_REQUEST, "\"numbers\" is mine or other");
    }
    return numbers.equals("other");
  }

  private static TheirWords words(Optional<OtherPart> other) {
    return other
        .map(OtherPart::words)
        .orElseThrow(
            () ->
                new ApiException(
                    ApiError.REFUSED, "No other part lies beside this book: choose one first"));
  }

  /** Adds what the bars are called in the other part, where one lies beside this book. */
  private static Heard<ShowChange> both(Heard<ShowChange> heard, Optional<OtherPart> other) {
    if (heard instanceof Heard.Understood<ShowChange> u) {
      Optional<String> theirs = other.flatMap(o -> o.words().their().beside(u.change()));
      return theirs
          .<Heard<ShowChange>>map(
              t -> new Heard.Understood<>(u.said(), u.change(), u.sentence() + " [" + t + "]"))
          .orElse(heard);
    }
    return heard;
  }

  private static HeardLine line(Heard<ShowChange> heard, List<PlanFinding> findings) {
    if (heard instanceof Heard.Understood<ShowChange> understood) {
      String id = understood.change().meta().id();
      return new HeardLine(
          understood.said(),
          Optional.of(plain(understood.change())),
          Optional.of(understood.sentence()),
          Optional.empty(),
          Optional.empty(),
          List.of(),
          List.of(),
          Optional.empty(),
          understood.change().kept().isPresent(),
          findings.stream().filter(f -> f.change().filter(id::equals).isPresent()).toList());
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) heard;
    return new HeardLine(
        asked.said(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(asked.question()),
        Topics.of(asked).map(t -> t.word()),
        asked.candidates(),
        asked.readings().stream()
            .map(r -> new Reading(r.says(), r.changes().stream().map(WordRoutes::plain).toList()))
            .toList(),
        asked.keep().map(WordRoutes::plain),
        false,
        List.of());
  }

  private static ObjectNode plain(ShowChange change) {
    ObjectNode node = ChangesJson.tree(change);
    node.remove("id");
    return node;
  }
}
