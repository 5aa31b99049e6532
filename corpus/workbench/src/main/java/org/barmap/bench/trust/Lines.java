package org.barmap.bench.trust;

import java.util.concurrent.Flow;
import java.util.function.Consumer;

/** Hears the lines of an answer that does not end. */
record Lines(Runnable begun, Consumer<String> line) implements Flow.Subscriber<String> {

  @Override
  public void onSubscribe(Flow.Subscription subscription) {
    begun.run();
    subscription.request(Long.MAX_VALUE);
  }

  @Override
  public void onNext(String item) {
    line.accept(item);
  }

  @Override
  public void onError(Throwable e) {
    // the answer's end tells
  }

  @Override
  public void onComplete() {
    // the answer's end tells
  }
}
