package org.barmap.work.hook;

import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.barmap.library.feed.Delivery;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Feed;
import org.barmap.library.feed.Outbox;

/**
 * Sends what waits for web hooks, one after the other in one thread. What was sent and not noted
 * before a kill is sent again, with the same id.
 */
public final class HookSender implements AutoCloseable {

  /** Id of what is told: who is told can tell by it what came twice. */
  public static final String DELIVERY = "Barmap-Delivery";

  /** What happened, as in the body. */
  public static final String EVENT = "Barmap-Event";

  /** Seconds since 1970 when it was sent; the signature is over it too. */
  public static final String TIMESTAMP = "Barmap-Timestamp";

  /** {@code sha256=} and the HMAC-SHA256 of timestamp, a point and the body in hexadecimal. */
  public static final String SIGNATURE = "Barmap-Signature";

  private static final System.Logger LOG = System.getLogger(HookSender.class.getName());

  /** However little there is to do, it is looked after so often. */
  private static final Duration LONGEST = Duration.ofMinutes(1);

  private final Outbox outbox;
  private final Post post;
  private final Clock clock;
  private final Semaphore wake = new Semaphore(0);
  private final Runnable unlisten;
  private volatile boolean closed;
  private Optional<Thread> thread = Optional.empty();

  /** Makes a sender that does nothing until it is started or cranked by hand. */
  public HookSender(Feed feed, NetRules rules, Clock clock) {
    this.outbox = feed.outbox();
    this.post = new Post(rules);
    this.clock = clock;
    outbox.takeUpAgain();
    unlisten =
        feed.listen(
            new Feed.Listener() {
              @Override
              public void edition(String book, Edition edition) {
                // what is to be told of it is queued
              }

              @Override
              public void queued() {
                wake.release();
              }
            });
  }

  /** Starts sending in a thread of its own. */
  public synchronized void start() {
    Thread t = new Thread(this::loop, "barmap-hooks");
    t.setDaemon(true);
    t.start();
    thread = Optional.of(t);
  }

  private void loop() {
    while (!closed) {
      try {
        if (!runOne()) {
          wake.tryAcquire(pause().toMillis(), TimeUnit.MILLISECONDS);
          wake.drainPermits();
        }
      } catch (InterruptedException e) {
        return;
      } catch (RuntimeException e) {
        // a full disk, for instance: it is all there still
        LOG.log(System.Logger.Level.WARNING, "a web hook could not be told", e);
        if (!rest()) {
          return;
        }
      }
    }
  }

  private boolean rest() {
    try {
      return !wake.tryAcquire(10, TimeUnit.SECONDS) || !closed;
    } catch (InterruptedException e) {
      return false;
    }
  }

  private Duration pause() {
    Instant now = clock.instant();
    Duration left = outbox.due().map(due -> Duration.between(now, due)).orElse(LONGEST);
    return left.compareTo(LONGEST) > 0 ? LONGEST : left.isNegative() ? Duration.ZERO : left;
  }

  /** Sends what is next; false when nothing is to be sent now. */
  public boolean runOne() throws InterruptedException {
    Optional<Outbox.Sending> next = outbox.next();
    if (next.isEmpty()) {
      return false;
    }
    Outbox.Sending sending = next.get();
    Post.Answer answer = send(sending);
    if (answer.arrived()) {
      outbox.arrived(sending, answer.text());
    } else {
      outbox.failed(sending, HookPolicy.STANDARD.after(sending, answer.text(), clock.instant()));
    }
    return true;
  }

  private Post.Answer send(Outbox.Sending sending) throws InterruptedException {
    Delivery delivery = sending.delivery();
    byte[] body = HookBody.of(delivery);
    long timestamp = clock.instant().getEpochSecond();
    Map<String, String> headers = new LinkedHashMap<>();
    headers.put(DELIVERY, delivery.id());
    headers.put(EVENT, delivery.event().word());
    headers.put(TIMESTAMP, Long.toString(timestamp));
    headers.put(SIGNATURE, Signature.of(sending.secret(), timestamp, body));
    return post.send(URI.create(sending.hook().address()), headers, body);
  }

  /** Stops sending; what is being sent is broken off and sent again another time. */
  @Override
  public void close() {
    closed = true;
    unlisten.run();
    thread.ifPresent(Thread::interrupt);
    boolean interrupted = false;
    while (thread.map(Thread::isAlive).orElse(false)) {
      try {
        thread.get().join();
      } catch (InterruptedException e) {
        interrupted = true;
      }
    }
    post.close();
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
