package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Clock;
import org.barmap.library.HookTarget;
import org.barmap.library.feed.Hooks;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.barmap.work.hook.HookSender;
import org.barmap.work.hook.NetRules;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** An owner registers who is told, sees what came of it, and sends again. */
class HookRoutesTest extends RunningServer {

  private static final String EVENTS = ",\"events\":[\"checked\",\"changed\"]}";

  private HttpResponse<String> register(String base, HookTarget target) throws Exception {
    return post(base, "{\"address\":\"" + target.address() + "\"" + EVENTS);
  }

  private HttpResponse<String> patch(String path, String body) throws Exception {
    return send(to(path).method("PATCH", HttpRequest.BodyPublishers.ofString(body)));
  }

  @Test
  void whatWasRegisteredIsToldAndCanBeLookedAt() throws Exception {
    allowMyNet();
    String book = newBook();
    String base = "/api/books/" + book + "/hooks";
    try (HookTarget target = new HookTarget();
        HookSender sender = new HookSender(library.feed(), new NetRules(true), Clock.systemUTC())) {
      HttpResponse<String> made = register(base, target);
      assertThat(made.statusCode()).as(made.body()).isEqualTo(201);
      String secret = json(made).path("secret").asString();
      assertThat(secret).hasSize(43);
      JsonNode hook = json(made).path("hook");
      String own = base + "/" + hook.path("id").asString();
      assertThat(made.headers().firstValue("Location")).contains(own);
      assertThat(get(base).body()).doesNotContain(secret).contains(target.address());
      assertThat(hook.path("events"))
          .isEqualTo(BarMapJson.mapper().readTree("[\"checked\",\"changed\"]"));
      assertThat(post(own + "/try", "").statusCode()).isEqualTo(202);
      rename(book);
      while (sender.runOne()) {
        // until nothing waits
      }
      assertThat(target.heard())
          .extracting(HookTarget.Heard::event)
          .containsExactly("tried", "changed");
      assertThat(target.heard()).allMatch(h -> h.isSigned(secret));
      HttpResponse<String> one = get(own);
      assertThat(one.body()).doesNotContain(secret);
      JsonNode newest = json(one).path("deliveries").path(0);
      assertThat(newest.path("state").asString()).isEqualTo("sent");
      assertThat(newest.path("answer").asString()).isEqualTo("Answered 200");
      String again = own + "/deliveries/" + newest.path("id").asString() + "/again";
      assertThat(post(again, "").statusCode()).isEqualTo(202);
      assertThat(sender.runOne()).isTrue();
      assertThat(target.heard().get(2).delivery()).isEqualTo(newest.path("id").asString());
      assertThat(json(patch(own, "{\"on\":false}")).path("hook").path("off").asString())
          .isEqualTo("Turned off by you");
      assertProblem(post(again, ""), ApiError.BAD_TARGET);
      assertThat(json(patch(own, "{\"on\":true}")).path("hook").has("off")).isFalse();
      assertThat(send(to(own).DELETE()).statusCode()).isEqualTo(204);
      assertProblem(get(own), ApiError.NO_HOOK);
    }
  }

  @Test
  void aHookOfAllBooksIsAnother() throws Exception {
    allowMyNet();
    String book = newBook();
    try (HookTarget target = new HookTarget()) {
      String all = json(register("/api/hooks", target)).path("hook").path("id").asString();
      String own =
          json(register("/api/books/" + book + "/hooks", target))
              .path("hook")
              .path("id")
              .asString();
      assertThat(json(get("/api/hooks")).path("hooks").size()).isEqualTo(1);
      assertThat(get("/api/hooks/" + all).statusCode()).isEqualTo(200);
      assertProblem(get("/api/hooks/" + own), ApiError.NO_HOOK);
      assertProblem(get("/api/books/" + book + "/hooks/" + all), ApiError.NO_HOOK);
      assertProblem(get("/api/books/" + newBook() + "/hooks/" + own), ApiError.NO_HOOK);
      assertProblem(post("/api/hooks/" + all + "/deliveries/nothing/again", ""), ApiError.NO_HOOK);
    }
  }

  @Test
  void oneBookTakesNoRoomFromTheOthers() throws Exception {
    allowMyNet();
    String full = "/api/books/" + newBook() + "/hooks";
    try (HookTarget target = new HookTarget()) {
      for (int i = 0; i < Hooks.MOST_OF_BOOK; i++) {
        assertThat(register(full, target).statusCode()).isEqualTo(201);
      }
      assertProblem(register(full, target), ApiError.BAD_TARGET);
      assertThat(register("/api/books/" + newBook() + "/hooks", target).statusCode())
          .isEqualTo(201);
      assertThat(register("/api/hooks", target).statusCode()).isEqualTo(201);
    }
  }

  @Test
  void anAddressOfThisMachineIsNotTakenUnlessAllowed() throws Exception {
    try (HookTarget target = new HookTarget()) {
      HttpResponse<String> refused = register("/api/hooks", target);
      assertProblem(refused, ApiError.BAD_TARGET);
      assertThat(refused.body()).contains("--hooks-to-my-net");
    }
    assertProblem(post("/api/hooks", "{\"address\":\"gopher://x\"}"), ApiError.BAD_TARGET);
    assertProblem(post("/api/hooks", "{}"), ApiError.BAD_TARGET);
    assertProblem(post("/api/hooks", "{\"address\":5}"), ApiError.BAD_REQUEST);
    for (String wrong : new String[] {"[]", "[\"tried\"]", "[5]", "\"checked\""}) {
      assertProblem(
          post("/api/hooks", "{\"address\":\"https://8.8.8.8/\",\"events\":" + wrong + "}"),
          ApiError.BAD_REQUEST);
    }
    assertThat(json(get("/api/hooks")).path("hooks").isEmpty()).isTrue();
  }
}
