package org.barmap.web.answer;

import java.net.http.HttpRequest;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.barmap.web.contract.ApiDescription;
import org.barmap.web.contract.ApiDescription.Operation;

/** Requests for any route of the description. */
final class Asking {

  /** Names that fit the places of addresses, of things that are not there. */
  private static final Map<String, String> NAMES =
      Map.of("at", "1:1", "n", "1", "form", "map", "sheet", "run.pdf", "size", "max");

  /** Bodies that are understood, where an empty object is not. */
  private static final Map<String, String> BODIES =
      Map.of(
          "PUT /api/bin", "{\"days\":30}",
          "POST /api/hooks", "{\"address\":\"https://8.8.8.8/\"}");

  /** Routes that take files, as multipart bodies. */
  static final List<String> FILES =
      List.of("POST /api/books/open", "POST /api/books/{b}/pages", "POST /api/books/{b}/second");

  private static final String OPEN = "POST /api/books/open";

  private static final String HEAD =
      "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\"x\"\r\n\r\n";

  private static final String END = "\r\n--xx--\r\n";

  private Asking() {}

  /** Returns the routes that may be answered with a status, those whose address begins so. */
  static List<Operation> describing(int status, String begin) {
    return ApiDescription.INSTANCE.operations().stream()
        .filter(o -> o.statuses().contains(status) && o.path().startsWith(begin))
        .toList();
  }

  /** Returns the address of a route of a book. */
  static String path(Operation route, String book) {
    return path(route, book, NAMES);
  }

  /** Returns the address of a route of a book, with names for what is in it. */
  static String path(Operation route, String book, Map<String, String> names) {
    String path = route.path().replace("{b}", book);
    for (Map.Entry<String, String> name : names.entrySet()) {
      path = path.replace("{" + name.getKey() + "}", name.getValue());
    }
    return path.replaceAll("\\{\\w+}", "none");
  }

  /** Asks with the method of a route, and a body where there may be one. */
  static HttpRequest.Builder as(HttpRequest.Builder request, Operation route, String body) {
    return reads(route)
        ? request.GET()
        : request.method(route.method(), HttpRequest.BodyPublishers.ofString(body));
  }

  /** Returns an upload of one file of zeros, which is never in memory as a whole. */
  static HttpRequest.BodyPublisher file(int bytes) {
    byte[] some = new byte[1 << 20];
    return HttpRequest.BodyPublishers.concat(
        HttpRequest.BodyPublishers.ofString(HEAD),
        HttpRequest.BodyPublishers.ofByteArrays(Collections.nCopies(bytes / some.length, some)),
        HttpRequest.BodyPublishers.ofByteArray(some, 0, bytes % some.length),
        HttpRequest.BodyPublishers.ofString(END));
  }

  /** Asks with a body and a revision that are understood, whether they fit or not. */
  static HttpRequest.Builder understood(HttpRequest.Builder request, Operation route) {
    request.header("If-Match", "\"0\"");
    if (route.route().equals(OPEN)) {
      return as(
          request.header("Content-Type", "multipart/form-data; boundary=xx"),
          route,
          HEAD + "x" + END);
    }
    return as(request, route, BODIES.getOrDefault(route.route(), "{}"));
  }

  /** Tells whether a route stores nothing by its method. */
  static boolean reads(Operation route) {
    return route.method().equals("GET");
  }
}
