package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import io.javalin.Javalin;
import io.javalin.json.JavalinJackson3;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Problems;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** Every error constant comes out as the same kind of answer. */
class ProblemsTest {

  private static HttpResponse<String> answer(Exception failure) throws Exception {
    Javalin javalin =
        Javalin.create(
            config -> {
              config.startup.showJavalinBanner = false;
              config.jsonMapper(new JavalinJackson3(BarMapJson.mapper(), false));
              Problems.register(config.routes);
              config.routes.get(
                  "/",
                  ctx -> {
                    throw failure;
                  });
            });
    javalin.start("127.0.0.1", 0);
    try {
      URI address = URI.create("http://127.0.0.1:" + javalin.port() + "/");
      return HttpClient.newHttpClient()
          .send(HttpRequest.newBuilder(address).build(), HttpResponse.BodyHandlers.ofString());
    } finally {
      javalin.stop();
    }
  }

  @ParameterizedTest
  @EnumSource(ApiError.class)
  void everyConstantIsAnswered(ApiError error) throws Exception {
    HttpResponse<String> response = answer(new ApiException(error, "What exactly"));
    JsonNode problem = BarMapJson.mapper().readTree(response.body());
    assertThat(response.statusCode()).isEqualTo(error.status());
    assertThat(response.headers().firstValue("Content-Type").orElse(""))
        .startsWith("application/problem+json");
    assertThat(problem.path("code").asString()).isEqualTo(error.name());
    assertThat(problem.path("title").asString()).isEqualTo(error.title());
    assertThat(problem.path("status").asInt()).isEqualTo(error.status());
    assertThat(problem.path("detail").asString()).isEqualTo("What exactly");
  }

  @ParameterizedTest
  @ValueSource(strings = {"No space left on device", "secret /home/someone"})
  void aFailingDiskIsAStorageErrorAndKeepsItsPathsToItself(String text) throws Exception {
    HttpResponse<String> response = answer(new IOException(text));
    assertThat(response.statusCode()).isEqualTo(ApiError.STORAGE.status());
    assertThat(response.body()).contains("make room").doesNotContain(text);
  }
}
