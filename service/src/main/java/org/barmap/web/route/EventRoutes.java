package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.sse.SseClient;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.web.share.Guests;
import org.barmap.work.Events;
import org.barmap.work.JobView;

/** Live events of a book, as server-sent events. */
public final class EventRoutes implements AutoCloseable {

  private static final int KEEP_ALIVE_SECONDS = 15;
  private static final int MAX_CLIENTS = 200;

  private final Library library;
  private final Events events;
  private final Guests guests;
  private final Set<SseClient> clients = ConcurrentHashMap.newKeySet();

  /** Sends everything, so that a slow browser never holds up the reading. */
  private final ScheduledExecutorService sender =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread thread = new Thread(task, "barmap-events");
            thread.setDaemon(true);
            return thread;
          });

  public EventRoutes(Library library, Events events, Guests guests) {
    this.library = library;
    this.events = events;
    this.guests = guests;
  }

  public void register(RoutesConfig routes) {
    routes.sse("/api/books/{b}/events", this::open);
    sender.scheduleAtFixedRate(
        this::keepAlive, KEEP_ALIVE_SECONDS, KEEP_ALIVE_SECONDS, TimeUnit.SECONDS);
  }

  private void open(SseClient client) {
    BookCard book = Requests.book(library, client.ctx());
    if (clients.size() >= MAX_CLIENTS) {
      client.close();
      return;
    }
    client.keepAlive();
    clients.add(client);
    Runnable stop =
        events.listen(book.id(), (name, data) -> sender.execute(() -> send(client, name, data)));
    client.onClose(
        () -> {
          stop.run();
          clients.remove(client);
        });
    sender.execute(
        () -> {
          client.sendComment("here");
          library.jobs().latest(book.id()).ifPresent(j -> send(client, "job", JobView.of(j)));
        });
  }

  private void send(SseClient client, String name, Object data) {
    if (!isWelcome(client)) {
      client.close();
    } else if (!client.terminated()) {
      client.sendEvent(name, data);
    }
  }

  /** A guest hears nothing more once sharing is ended. */
  private boolean isWelcome(SseClient client) {
    return Guard.guestOf(client.ctx()).map(guests::welcome).orElse(true);
  }

  private void keepAlive() {
    for (SseClient client : clients) {
      if (client.terminated()) {
        clients.remove(client);
      } else {
        client.sendComment("still here");
      }
    }
  }

  @Override
  public void close() {
    for (SseClient client : clients) {
      client.close();
    }
    sender.shutdownNow();
  }
}
