package org.barmap.web.planned;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.zip.GZIPInputStream;
import org.barmap.library.BookCard;
import org.barmap.library.Pages;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.web.RunningServer;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A plan is worked out once for what it follows from, and sent from there. */
class PlanningTest extends RunningServer {

  /** A page that can't be read is no part of the map, which may not cost a plan for each asker. */
  @Test
  void aBookWithAPageThatCannotBeReadIsPlannedOnceToo() throws Exception {
    String id = readBook();
    Pages.NewPage broken = new Pages.NewPage("no.png", "", 100, 100, Optional.of("It is broken"));
    library.pages().add(id, List.of(broken), Optional.empty());
    Planning planning = new Planning(library);
    BookCard book = library.books().find(id).orElseThrow();
    BarMap map = library.drafts().find(id).orElseThrow().value().map();
    assertThat(planning.plan(book, map, ShowChanges.none()))
        .isSameAs(planning.plan(book, map, ShowChanges.none()));
    assertThat(planning.plan(book, map, ShowChanges.none()).findings().toString())
        .contains("Page 3 could not be read");
    Plan held = planning.plan(book, map, ShowChanges.none());
    planning.forget("another book");
    assertThat(planning.plan(book, map, ShowChanges.none())).isSameAs(held);
    planning.forget(id);
    assertThat(planning.plan(book, map, ShowChanges.none())).isNotSameAs(held);
  }

  @Test
  void itIsTheSamePackedAndUnpacked() throws Exception {
    String path = "/api/books/" + readBook();
    for (String what : new String[] {"/plan", "/roadmap"}) {
      HttpResponse<byte[]> packed =
          http.send(
              to(path + what).header("Accept-Encoding", "gzip").build(),
              HttpResponse.BodyHandlers.ofByteArray());
      assertThat(packed.headers().firstValue("Content-Encoding")).contains("gzip");
      try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(packed.body()))) {
        assertThat(BarMapJson.mapper().readTree(in)).isEqualTo(json(get(path + what)));
      }
    }
  }

  /** Whoever has a form lays a step over it only where it is the one the step began at. */
  @Test
  void aStepSaysWhichFormItIsLaidOver() throws Exception {
    String path = "/api/books/" + readBook();
    String was = json(get(path + "/roadmap")).path("basis").asString();
    assertThat(was).isNotEmpty();
    String note = "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"watch\"}";
    JsonNode step = json(post(path + "/changes?numbers=changed", note, 0)).path("road");
    assertThat(step.path("before").asString()).isEqualTo(was);
    String now = json(get(path + "/roadmap")).path("basis").asString();
    assertThat(step.path("basis").asString()).isEqualTo(now).isNotEqualTo(was);
  }

  /** They are as heavy as long books: of those too only some are remembered. */
  @Test
  void longListsOfChangesOfAShortBookAreNotAllRemembered() throws Exception {
    String id = readBook();
    Planning planning = new Planning(library);
    BookCard book = library.books().find(id).orElseThrow();
    BarMap map = library.drafts().find(id).orElseThrow().value().map();
    Plan first = planning.plan(book, map, ShowChanges.none());
    for (int list = 0; list < 15; list++) {
      String text = "list " + list;
      planning.plan(
          book,
          map,
          new ShowChanges(IntStream.range(0, 500).mapToObj(i -> note(i, text)).toList()));
    }
    assertThat(planning.plan(book, map, ShowChanges.none())).isNotSameAs(first);
  }

  private static ShowChange note(int i, String text) {
    return Planning.change(
        BarMapJson.mapper()
            .createObjectNode()
            .put("id", "c" + i)
            .put("kind", "remind")
            .put("number", "1")
            .put("first", "1")
            .put("what", "text")
            .put("note", text));
  }
}
