package org.barmap.web;

import io.javalin.Javalin;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.barmap.library.Library;
import org.barmap.web.access.Keys;
import org.barmap.web.access.PictureLog;
import org.barmap.web.access.Places;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Looks;
import org.barmap.web.api.Problems;
import org.barmap.web.api.Repeats;
import org.barmap.web.feed.AlignRoutes;
import org.barmap.web.feed.DescriptionRoutes;
import org.barmap.web.feed.EditionRoutes;
import org.barmap.web.feed.EngineRoutes;
import org.barmap.web.feed.HookRoutes;
import org.barmap.web.feed.PictureRoutes;
import org.barmap.web.feed.RegionRoutes;
import org.barmap.web.operate.AtHand;
import org.barmap.web.operate.HealthRoutes;
import org.barmap.web.operate.Measures;
import org.barmap.web.planned.Planning;
import org.barmap.web.route.AboutRoutes;
import org.barmap.web.route.BookRoutes;
import org.barmap.web.route.ChangeRoutes;
import org.barmap.web.route.EventRoutes;
import org.barmap.web.route.ExportRoutes;
import org.barmap.web.route.MapRoutes;
import org.barmap.web.route.MarkRoutes;
import org.barmap.web.route.PackRoutes;
import org.barmap.web.route.PageRoutes;
import org.barmap.web.route.PlanRoutes;
import org.barmap.web.route.SecondRoutes;
import org.barmap.web.route.ShareRoutes;
import org.barmap.web.route.SheetRoutes;
import org.barmap.web.route.SinceRoutes;
import org.barmap.web.route.WordRoutes;
import org.barmap.web.site.SitePages;
import org.barmap.work.Events;
import org.barmap.work.Worker;
import org.barmap.work.engine.EngineJobs;
import org.barmap.work.hook.NetRules;

/**
 * The service on the loopback address, and on addresses of the local net where it is shared; with a
 * key only, at every one of them.
 */
public final class WebServer implements AutoCloseable {

  /** So long requests at hand may take when the service ends. */
  private static final Duration GRACE = Duration.ofSeconds(10);

  private final Javalin javalin;
  private final EventRoutes eventRoutes;
  private final Keys keys;
  private final Measures measures;
  private final Places places;
  private final AtHand atHand;

  /** Whether it is being closed. */
  private final AtomicBoolean ending;

  private WebServer(
      Javalin javalin,
      EventRoutes eventRoutes,
      Keys keys,
      Measures measures,
      Places places,
      AtHand atHand,
      AtomicBoolean ending) {
    this.javalin = javalin;
    this.eventRoutes = eventRoutes;
    this.keys = keys;
    this.measures = measures;
    this.places = places;
    this.atHand = atHand;
    this.ending = ending;
  }

  /**
   * Starts the service.
   *
   * @param port 0 for any free one
   * @param dataFolder where the library is
   * @throws RuntimeException when the port is taken, see {@link #isPortTaken}
   */
  public static WebServer start(
      Library library, Worker worker, Events events, Path dataFolder, int port) {
    return start(library, worker, events, dataFolder, port, Places.sharedAt(List.of()));
  }

  /**
   * Starts the service, which can be shared.
   *
   * @param port 0 for any free one
   * @param dataFolder where the library is
   * @param places where it is reached besides the loopback address
   * @throws RuntimeException when the port is taken, see {@link #isPortTaken}
   */
  public static WebServer start(
      Library library, Worker worker, Events events, Path dataFolder, int port, Places places) {
    EngineJobs none = EngineJobs.none(library, worker, events);
    return start(library, worker, events, dataFolder, port, places, NetRules.INTERNET, none);
  }

  /**
   * Starts the service, which can be shared.
   *
   * @param port 0 for any free one
   * @param dataFolder where the library is
   * @param places where it is reached besides the loopback address
   * @param hooks where web hooks may be registered for
   * @param engines other readers of music; closed by who made them
   * @throws RuntimeException when the port is taken, see {@link #isPortTaken}
   */
  public static WebServer start(
      Library library,
      Worker worker,
      Events events,
      Path dataFolder,
      int port,
      Places places,
      NetRules hooks,
      EngineJobs engines) {
    Keys keys = keys(dataFolder);
    PictureLog log = new PictureLog(dataFolder, InstantSource.system());
    EventRoutes eventRoutes = new EventRoutes(library, events, keys);
    Measures measures = new Measures(library, worker, events);
    AtomicBoolean ending = new AtomicBoolean();
    AtHand atHand = new AtHand();
    Javalin javalin =
        Javalin.create(
            config -> {
              Wire.configure(config, dataFolder, atHand);
              Problems.register(config.routes);
              Guard guard = new Guard(keys, places);
              guard.register(config.routes);
              Repeats.register(config.routes, library);
              new Looks(library, keys, log).register(config.routes);
              SitePages.register(config.routes);
              new BookRoutes(library, guard, events).register(config.routes);
              new PageRoutes(library, worker, events).register(config.routes);
              new MapRoutes(library, worker, events).register(config.routes);
              new EditionRoutes(library).register(config.routes);
              new HookRoutes(library, hooks).register(config.routes);
              new SecondRoutes(library, worker).register(config.routes);
              new EngineRoutes(library, engines).register(config.routes);
              planned(config.routes, library, events);
              new RegionRoutes(library, guard).register(config.routes);
              new PictureRoutes(library, worker.copies(), guard).register(config.routes);
              new AlignRoutes(library, events).register(config.routes);
              eventRoutes.register(config.routes);
              new ShareRoutes(library, events, keys, log, places).register(config.routes);
              new AboutRoutes(library, dataFolder).register(config.routes);
              new HealthRoutes(library, worker, ending::get).register(config.routes);
              measures.register(config.routes);
              measures.listen(config);
              new DescriptionRoutes().register(config.routes);
            });
    try {
      javalin.start(Places.HERE, port);
      for (InetAddress address : places.shared()) {
        Wire.listen(javalin.jettyServer().server(), address, javalin.port(), places.certificate());
      }
    } catch (RuntimeException e) {
      eventRoutes.close();
      measures.close();
      javalin.stop();
      throw e;
    }
    return new WebServer(javalin, eventRoutes, keys, measures, places, atHand, ending);
  }

  /** The routes of changes and of what is reckoned from them. */
  private static void planned(RoutesConfig routes, Library library, Events events) {
    Planning planning = new Planning(library);
    routes.after("/api/books/{b}", ctx -> binned(ctx, planning));
    new ChangeRoutes(library, events, planning).register(routes);
    new MarkRoutes(library, events).register(routes);
    new PlanRoutes(library, planning).register(routes);
    new SinceRoutes(library, planning).register(routes);
    new ExportRoutes(library, planning).register(routes);
    new PackRoutes(library, events).register(routes);
    new SheetRoutes(library, planning).register(routes);
    new WordRoutes(library, planning).register(routes);
  }

  /** Of a book in the bin nothing is held: it may never come back. */
  private static void binned(Context ctx, Planning planning) {
    if (ctx.method() == HandlerType.DELETE && ctx.statusCode() < 300) {
      planning.forget(ctx.pathParam("b"));
    }
  }

  private static Keys keys(Path dataFolder) {
    try {
      return Keys.of(dataFolder, InstantSource.system());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Tells whether a start failed because something else listens on the port. */
  public static boolean isPortTaken(Throwable e) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      boolean bind = t instanceof java.net.BindException;
      if (bind || String.valueOf(t.getMessage()).contains("Port already in use")) {
        return true;
      }
    }
    return false;
  }

  /** Returns the port it listens on. */
  public int port() {
    return javalin.port();
  }

  /** Returns the address, with a slash at its end; nothing is given there without a key. */
  public String address() {
    return "http://127.0.0.1:" + port() + "/";
  }

  /** Returns the owner's key, which opens everything. */
  public String key() {
    return keys.owner();
  }

  /** Returns the addresses to open from elsewhere, with the owner's key; none unless shared. */
  public List<String> sharedEntries() {
    return places.bases(port()).stream().map(b -> b + Guard.ENTRY + "?key=" + key()).toList();
  }

  /** Returns the keys. */
  public Keys keys() {
    return keys;
  }

  /** Returns the address to open in a browser, which remembers the key in it. */
  public String entry() {
    return "http://127.0.0.1:" + port() + Guard.ENTRY + "?key=" + key();
  }

  /** Returns what it answers below {@code /api}, for instance {@code GET /api/books/{b}/map}. */
  List<String> routes() {
    return everyRoute().stream().filter(route -> route.contains(" /api/")).toList();
  }

  /** Returns what it answers, pages too. */
  List<String> everyRoute() {
    return javalin.unsafe.internalRouter.allHttpHandlers().stream()
        .map(handler -> handler.endpoint)
        .filter(endpoint -> endpoint.method.isHttpMethod())
        .map(endpoint -> endpoint.method.name() + " " + endpoint.path)
        .toList();
  }

  /** Stops listening; requests at hand are finished, within {@link #GRACE}. */
  @Override
  public void close() {
    ending.set(true);
    eventRoutes.close();
    try {
      atHand.await(GRACE);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    javalin.stop();
    measures.close();
  }
}
