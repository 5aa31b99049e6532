package org.barmap.web.contract;

import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.contract.ApiDescription.Operation;
import org.barmap.web.contract.ApiDescription.Place;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/**
 * Compares a request and its answer with the description.
 *
 * @param strict whether a request that was answered well has to be as described itself; where
 *     requests are odd on purpose only answers are looked at
 */
record Contract(ApiDescription description, boolean strict) {

  /** What may be said of an address that is no route. */
  private static final Set<String> NO_ROUTE =
      Set.of(
          "NOT_FOUND",
          "WRONG_METHOD",
          "BAD_REQUEST",
          "TOO_LARGE",
          "FOREIGN",
          "NEEDS_KEY",
          "ENDED",
          "NOT_YOURS",
          "SLOW_DOWN");

  /** Fails where something is not as described. */
  void check(HttpRequest request, HttpResponse<?> response) {
    List<String> wrong = new ArrayList<>();
    URI uri = request.uri();
    if (request.method().equals("HEAD")) {
      return;
    }
    Optional<Operation> operation = description.operation(request.method(), uri.getRawPath());
    if (operation.isPresent()) {
      answer(operation.get(), response, wrong);
      if (strict && response.statusCode() < 300) {
        asked(operation.get(), request, wrong);
      }
    } else if (uri.getRawPath().startsWith("/api/")) {
      elsewhere(response, wrong);
    }
    if (wrong.isEmpty()) {
      operation.ifPresent(o -> Answered.by(o, response.statusCode()));
    } else {
      throw new AssertionError(
          request.method()
              + " "
              + uri.getPath()
              + " is answered "
              + response.statusCode()
              + ", which openapi.yaml describes otherwise:\n  "
              + String.join("\n  ", wrong));
    }
  }

  private static void elsewhere(HttpResponse<?> response, List<String> wrong) {
    if (response.statusCode() < 400) {
      wrong.add("the route is not described");
    } else if (response.body() instanceof String text) {
      String code = BarMapJson.mapper().readTree(text).path("code").asString("");
      if (!NO_ROUTE.contains(code)) {
        wrong.add("no route is described there, and it says " + code);
      }
    }
  }

  private void answer(Operation operation, HttpResponse<?> response, List<String> wrong) {
    JsonPointer at =
        operation.at().appendProperty("responses").appendProperty("" + response.statusCode());
    if (description.tree().at(at).isMissingNode()) {
      wrong.add("this status is not described");
      return;
    }
    Place said = description.at(at);
    for (Map.Entry<String, JsonNode> header : said.node().path("headers").properties()) {
      JsonPointer there = said.at().appendProperty("headers").appendProperty(header.getKey());
      boolean required = description.at(there).node().path("required").asBoolean(false);
      if (required && response.headers().firstValue(header.getKey()).isEmpty()) {
        wrong.add("the header " + header.getKey() + " is missing");
      }
    }
    String type = type(response.headers().firstValue("Content-Type").orElse(""));
    JsonNode content = said.node().path("content");
    if (content.isEmpty()) {
      boolean leads = response.statusCode() < 400 && response.statusCode() >= 300;
      if (!leads && response.body() instanceof String text && !text.isEmpty()) {
        wrong.add("it has a body");
      }
    } else if (!content.has(type)) {
      wrong.add("its type is " + type);
    } else {
      boolean plain = response.headers().firstValue("Content-Encoding").isEmpty();
      Optional<JsonNode> body = plain && isJson(type) ? json(response.body()) : Optional.empty();
      body.ifPresent(b -> body(said, type, b, wrong));
    }
  }

  private void body(Place said, String type, JsonNode body, List<String> wrong) {
    JsonPointer schema =
        said.at().appendProperty("content").appendProperty(type).appendProperty("schema");
    JsonNode node = description.tree().at(schema);
    if (!node.isMissingNode()) {
      wrong.addAll(description.problems(new Place(said.document(), schema, node), body));
    }
  }

  private void asked(Operation operation, HttpRequest request, List<String> wrong) {
    Set<String> queries = new HashSet<>();
    for (Place parameter : parameters(operation)) {
      JsonNode p = parameter.node();
      String name = p.path("name").asString();
      if (p.path("in").asString().equals("query")) {
        queries.add(name);
      } else if (p.path("in").asString().equals("header")
          && p.path("required").asBoolean()
          && request.headers().firstValue(name).isEmpty()) {
        wrong.add("it was asked without " + name);
      }
    }
    String query = Optional.ofNullable(request.uri().getRawQuery()).orElse("");
    Arrays.stream(query.split("&"))
        .map(part -> part.split("=", 2)[0])
        .filter(name -> !name.isEmpty() && !queries.contains(name))
        .forEach(name -> wrong.add("the parameter " + name + " is not described"));
    JsonPointer body = operation.at().appendProperty("requestBody");
    if (!description.tree().at(body).path("content").path("application/json").isMissingNode()) {
      Place said = new Place("", body, description.tree().at(body));
      Optional<String> sent = Sent.text(request);
      sent.flatMap(Contract::json)
          .ifPresent(json -> body(described(said), "application/json", json, wrong));
    }
  }

  private Place described(Place body) {
    return description.at(body.at());
  }

  private List<Place> parameters(Operation operation) {
    List<Place> all = new ArrayList<>();
    for (JsonPointer owner : List.of(operation.at().head(), operation.at())) {
      JsonPointer list = owner.appendProperty("parameters");
      for (int i = 0; i < description.tree().at(list).size(); i++) {
        all.add(description.at(list.appendIndex(i)));
      }
    }
    return all;
  }

  private static boolean isJson(String type) {
    return type.equals("application/json") || type.endsWith("+json");
  }

  private static String type(String header) {
    return header.split(";", 2)[0].strip();
  }

  private static Optional<JsonNode> json(Object body) {
    if (body instanceof String text) {
      return Optional.of(BarMapJson.mapper().readTree(BarMapJson.withoutMark(text)));
    }
    if (body instanceof byte[] bytes) {
      return json(new String(bytes, StandardCharsets.UTF_8));
    }
    return Optional.empty();
  }
}
