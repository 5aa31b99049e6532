package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.sse.SseClient;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.web.share.Guests;
import org.barmap.work.Events;
import org.barmap.work.JobView;
import tools.jackson.databind.node.ObjectNode;

/** Live events of a book, as server-sent events; who listens to them, and where they are. */
public final class EventRoutes implements AutoCloseable {

  private static final int KEEP_ALIVE_SECONDS = 15;
  private static final int MAX_CLIENTS = 200;
  private static final Pattern DESK = Pattern.compile("[\\w-]{8,64}");
  private static final int MOST_LETTERS = 60;

  private final Library library;
  private final Events events;
  private final Guests guests;
  private final Desks desks = new Desks();
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
    routes.post("/api/books/{b}/here", this::place);
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
        events.listen(
            book.id(),
            (name, data) -> {
              // a line that ends as the service does has nobody left to tell
              if (!sender.isShutdown()) {
                sender.execute(() -> send(client, name, data));
              }
            });
    String desk = Optional.ofNullable(client.ctx().queryParam("desk")).orElse("");
    boolean known = DESK.matcher(desk).matches() && desks.open(book.id(), desk);
    client.onClose(
        () -> {
          stop.run();
          clients.remove(client);
          if (known) {
            desks.close(book.id(), desk);
            tellWhoIsHere(book.id());
          }
        });
    sender.execute(
        () -> {
          client.sendComment("here");
          library.jobs().latest(book.id()).ifPresent(j -> send(client, "job", JobView.of(j)));
          send(client, "here", here(book.id()));
        });
  }

  /** A desk says where it is. One whose line has ended takes it up again and says it again. */
  private void place(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    ObjectNode body = Requests.body(ctx);
    int page = body.path("page").asInt(0);
    Desks.Desk desk =
        new Desks.Desk(
            Requests.text(body, "desk", 64),
            Requests.text(body, "who", MOST_LETTERS),
            Requests.text(body, "room", 20),
            page,
            Requests.text(body, "bar", MOST_LETTERS));
    if (desks.place(book.id(), desk)) {
      tellWhoIsHere(book.id());
    }
    ctx.status(204);
  }

  private Map<String, List<Desks.Desk>> here(String book) {
    return Map.of("desks", desks.at(book));
  }

  private void tellWhoIsHere(String book) {
    events.tell(book, "here", here(book));
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
