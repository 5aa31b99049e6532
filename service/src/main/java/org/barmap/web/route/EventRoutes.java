package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.sse.SseClient;
import io.javalin.http.sse.SseHandler;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Feed;
import org.barmap.web.access.Keys;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.work.Events;
import org.barmap.work.JobView;
import tools.jackson.databind.node.ObjectNode;

/**
 * Live events of a book, as server-sent events; who listens to them, and where they are. Who was
 * away says by {@code Last-Event-ID} what it heard last and is told what it missed, or {@code
 * reset}.
 */
public final class EventRoutes implements AutoCloseable {

  private static final int KEEP_ALIVE_SECONDS = 15;
  private static final int MAX_CLIENTS = 2_000;
  private static final Pattern DESK = Pattern.compile("[\\w-]{8,64}");
  private static final int MOST_LETTERS = 60;

  private final Library library;
  private final Events events;
  private final Keys keys;
  private final Desks desks = new Desks();
  private final Map<SseClient, Line> clients = new ConcurrentHashMap<>();

  /** Says every now and then that the service is still there. */
  private final ScheduledExecutorService clock =
      Executors.newSingleThreadScheduledExecutor(EventRoutes::thread);

  /** Send, so that a slow browser never holds up the reading, nor another browser. */
  private final ExecutorService senders = Executors.newCachedThreadPool(EventRoutes::thread);

  private static Thread thread(Runnable task) {
    Thread thread = new Thread(task, "barmap-events");
    thread.setDaemon(true);
    return thread;
  }

  private final Runnable feed;

  public EventRoutes(Library library, Events events, Keys keys) {
    this.library = library;
    this.events = events;
    this.keys = keys;
    feed =
        library
            .feed()
            .listen(
                new Feed.Listener() {
                  @Override
                  public void edition(String book, Edition made) {
                    events.tell(
                        book,
                        "edition",
                        Map.of("number", made.number(), "revision", made.revision()));
                  }

                  @Override
                  public void queued() {
                    // what is queued is nobody's here
                  }
                });
  }

  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/events", this::begin);
    routes.post("/api/books/{b}/here", this::place);
    clock.scheduleAtFixedRate(
        this::keepAlive, KEEP_ALIVE_SECONDS, KEEP_ALIVE_SECONDS, TimeUnit.SECONDS);
  }

  /** A line that is open has no status any more: what is wrong with the book is said before. */
  private void begin(Context ctx) {
    Requests.book(library, ctx);
    new SseHandler(this::open).handle(ctx);
  }

  private void open(SseClient client) {
    BookCard book = Requests.book(library, client.ctx());
    if (clients.size() >= MAX_CLIENTS) {
      keepAlive(); // those who have gone make room for the next one
      client.close();
      return;
    }
    client.keepAlive();
    clients.put(client, new Line(senders));
    // before anything is sent: a window that hears that its line is open says where it is
    String desk = Optional.ofNullable(client.ctx().queryParam("desk")).orElse("");
    boolean known = DESK.matcher(desk).matches() && desks.open(book.id(), desk);
    Optional<String> since = Optional.ofNullable(client.ctx().header("Last-Event-ID"));
    Runnable stop =
        events.follow(book.id(), since.filter(id -> !id.isBlank()), follower(client, book.id()));
    client.onClose(
        () -> {
          stop.run();
          clients.remove(client);
          if (known) {
            desks.close(book.id(), desk);
            tellWhoIsHere(book.id());
          }
        });
  }

  private Events.Follower follower(SseClient client, String book) {
    return new Events.Follower() {
      @Override
      public void hear(Optional<String> id, String name, Object data) {
        later(client, () -> send(client, name, data, id));
      }

      @Override
      public void begin(String id) {
        later(
            client,
            () -> {
              client.sendComment("here");
              library
                  .jobs()
                  .latest(book)
                  .ifPresent(j -> send(client, "job", JobView.of(j), Optional.empty()));
              send(client, "here", here(book), Optional.of(id));
            });
      }
    };
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

  /** One at a time, so that the last that is told is how it is. */
  private synchronized void tellWhoIsHere(String book) {
    events.tell(book, "here", here(book));
  }

  private void send(SseClient client, String name, Object data, Optional<String> id) {
    if (!isWelcome(client)) {
      client.close();
    } else if (!client.terminated() && id.isPresent()) {
      client.sendEvent(name, data, id.get());
    } else if (!client.terminated()) {
      client.sendEvent(name, data);
    }
  }

  /** A guest hears nothing more once the key has ended. */
  private boolean isWelcome(SseClient client) {
    return Guard.whoAsks(client.ctx()).map(keys::isGood).orElse(false);
  }

  /** Sends something when what was sent before has gone out. */
  private void later(SseClient client, Runnable step) {
    Line line = clients.get(client);
    // a line that ends as the service does has nobody left to tell
    if (line != null && !senders.isShutdown() && !line.send(step)) {
      clients.remove(client);
      client.close();
    }
  }

  private void keepAlive() {
    for (SseClient client : clients.keySet()) {
      if (client.terminated()) {
        clients.remove(client);
      } else if (!isWelcome(client)) {
        client.close();
      } else {
        later(client, () -> client.sendComment("still here"));
      }
    }
  }

  @Override
  public void close() {
    feed.run();
    clients.keySet().forEach(SseClient::close);
    clock.shutdownNow();
    senders.shutdownNow();
  }
}
