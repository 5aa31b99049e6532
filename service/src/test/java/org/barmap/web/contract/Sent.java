package org.barmap.web.contract;

import java.io.ByteArrayOutputStream;
import java.net.http.HttpRequest;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.Flow;

/** Reads what a request sends, once more. */
final class Sent implements Flow.Subscriber<ByteBuffer> {

  /** Longer ones are uploads. */
  private static final int MOST_BYTES = 1 << 20;

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();

  private Sent() {}

  /** Returns a text that was sent; empty where there is none, or a long one. */
  static Optional<String> text(HttpRequest request) {
    Optional<HttpRequest.BodyPublisher> body =
        request
            .bodyPublisher()
            .filter(p -> p.contentLength() > 0 && p.contentLength() <= MOST_BYTES);
    return body.map(
        publisher -> {
          Sent sent = new Sent();
          publisher.subscribe(sent); // those of a text or an array give it at once
          return sent.bytes.toString(StandardCharsets.UTF_8);
        });
  }

  @Override
  public void onSubscribe(Flow.Subscription subscription) {
    subscription.request(Long.MAX_VALUE);
  }

  @Override
  public void onNext(ByteBuffer part) {
    byte[] copy = new byte[part.remaining()];
    part.duplicate().get(copy);
    bytes.writeBytes(copy);
  }

  @Override
  public void onError(Throwable e) {
    throw new IllegalStateException(e);
  }

  @Override
  public void onComplete() {}
}
