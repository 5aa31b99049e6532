package org.barmap.web.api;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import org.barmap.map.json.BarMapJson;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.handler.ErrorHandler;
import org.eclipse.jetty.util.Callback;
import org.jspecify.annotations.Nullable;

/** What the server itself refuses, before any route sees it, is answered as routes answer. */
public final class WireErrors extends ErrorHandler {

  /** Left to itself the server says what is wrong to GET and POST only. */
  @Override
  public boolean errorPageForMethod(String method) {
    return true;
  }

  @Override
  protected void generateResponse(
      Request request,
      Response response,
      int status,
      String message,
      @Nullable Throwable cause,
      Callback callback) {
    byte[] body = body(status);
    head(response.getHeaders());
    response.getHeaders().put(HttpHeader.CONTENT_LENGTH, body.length);
    response.write(true, ByteBuffer.wrap(body), callback);
  }

  @Override
  public ByteBuffer badMessageError(int status, String reason, HttpFields.Mutable headers) {
    head(headers);
    return ByteBuffer.wrap(body(status));
  }

  private static void head(HttpFields.Mutable headers) {
    Guard.HEADERS.forEach(headers::put);
    headers.put("Cache-Control", "no-store");
    headers.put(HttpHeader.CONTENT_TYPE, "application/problem+json;charset=utf-8");
  }

  private static byte[] body(int status) {
    ApiError error = Problems.ofStatus(status);
    return BarMapJson.mapper()
        .writeValueAsString(Problems.problem(error, status, error.title()))
        .getBytes(StandardCharsets.UTF_8);
  }
}
