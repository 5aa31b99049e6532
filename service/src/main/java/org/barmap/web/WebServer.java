package org.barmap.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.http.staticfiles.Location;
import io.javalin.json.JavalinJackson3;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import org.barmap.library.Library;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.access.Certificate;
import org.barmap.web.access.Keys;
import org.barmap.web.access.PictureLog;
import org.barmap.web.access.Places;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Looks;
import org.barmap.web.api.Problems;
import org.barmap.web.api.Repeats;
import org.barmap.web.api.WireErrors;
import org.barmap.web.feed.PictureRoutes;
import org.barmap.web.feed.RegionRoutes;
import org.barmap.web.operate.HealthRoutes;
import org.barmap.web.operate.Measures;
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
import org.barmap.web.route.Planning;
import org.barmap.web.route.SecondRoutes;
import org.barmap.web.route.ShareRoutes;
import org.barmap.web.route.SheetRoutes;
import org.barmap.web.route.SinceRoutes;
import org.barmap.web.route.WordRoutes;
import org.barmap.web.site.SitePages;
import org.barmap.work.Events;
import org.barmap.work.Worker;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.EagerContentHandler;
import org.eclipse.jetty.server.handler.GracefulHandler;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * The service on the loopback address, and on addresses of the local net where it is shared; with a
 * key only, at every one of them.
 */
public final class WebServer implements AutoCloseable {

  private static final long MAX_BODY = 4L << 20;

  /** So much of a body is waited for without a thread, so that half-sent ones hold up nobody. */
  private static final long WHOLE_BODY = 256L << 10;

  /** So long requests at hand may take when the service ends. */
  private static final Duration GRACE = Duration.ofSeconds(10);

  private final Javalin javalin;
  private final EventRoutes eventRoutes;
  private final Keys keys;
  private final Measures measures;
  private final Places places;

  /** Whether it is being closed. */
  private final AtomicBoolean ending;

  private WebServer(
      Javalin javalin,
      EventRoutes eventRoutes,
      Keys keys,
      Measures measures,
      Places places,
      AtomicBoolean ending) {
    this.javalin = javalin;
    this.eventRoutes = eventRoutes;
    this.keys = keys;
    this.measures = measures;
    this.places = places;
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
    Keys keys = keys(dataFolder);
    PictureLog log = new PictureLog(dataFolder, InstantSource.system());
    EventRoutes eventRoutes = new EventRoutes(library, events, keys);
    Measures measures = new Measures(library, worker, events);
    AtomicBoolean ending = new AtomicBoolean();
    Javalin javalin =
        Javalin.create(
            config -> {
              configure(config, dataFolder);
              Problems.register(config.routes);
              Guard guard = new Guard(keys, places);
              guard.register(config.routes);
              Repeats.register(config.routes, library);
              new Looks(library, keys, log).register(config.routes);
              SitePages.register(config.routes);
              new BookRoutes(library).register(config.routes);
              new PageRoutes(library, worker, events).register(config.routes);
              new MapRoutes(library, worker, events).register(config.routes);
              new SecondRoutes(library, worker).register(config.routes);
              Planning planning = new Planning(library);
              new ChangeRoutes(library, events, planning).register(config.routes);
              new MarkRoutes(library).register(config.routes);
              new PlanRoutes(library, planning).register(config.routes);
              new SinceRoutes(library, planning).register(config.routes);
              new ExportRoutes(library, planning).register(config.routes);
              new PackRoutes(library, events).register(config.routes);
              new SheetRoutes(library, planning).register(config.routes);
              new WordRoutes(library, planning).register(config.routes);
              new RegionRoutes(library, guard).register(config.routes);
              new PictureRoutes(library, guard).register(config.routes);
              eventRoutes.register(config.routes);
              new ShareRoutes(library, events, keys, log, places).register(config.routes);
              new AboutRoutes(library, dataFolder).register(config.routes);
              new HealthRoutes(library, worker, ending::get).register(config.routes);
              measures.register(config.routes);
              measures.listen(config);
            });
    try {
      javalin.start(Places.HERE, port);
      for (InetAddress address : places.shared()) {
        listen(javalin.jettyServer().server(), address, javalin.port(), places.certificate());
      }
    } catch (RuntimeException e) {
      eventRoutes.close();
      measures.close();
      javalin.stop();
      throw e;
    }
    return new WebServer(javalin, eventRoutes, keys, measures, places, ending);
  }

  private static Keys keys(Path dataFolder) {
    try {
      return Keys.of(dataFolder, InstantSource.system());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Listens at one more address, as at the first one; encrypted with a certificate. */
  private static void listen(
      Server server, InetAddress address, int port, Optional<Certificate> certificate) {
    HttpConfiguration configuration =
        new HttpConfiguration(
            server
                .getConnectors()[0]
                .getConnectionFactory(HttpConnectionFactory.class)
                .getHttpConfiguration());
    ServerConnector connector =
        certificate
            .map(
                c -> {
                  // which names are right is the guard's to say
                  configuration.addCustomizer(new SecureRequestCustomizer(false));
                  SslContextFactory.Server tls = new SslContextFactory.Server();
                  tls.setKeyStore(c.store());
                  tls.setKeyStorePassword(c.password());
                  return new ServerConnector(server, tls, new HttpConnectionFactory(configuration));
                })
            .orElseGet(() -> new ServerConnector(server, new HttpConnectionFactory(configuration)));
    connector.setHost(address.getHostAddress());
    connector.setPort(port);
    server.addConnector(connector);
    try {
      connector.start();
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  private static void configure(JavalinConfig config, Path dataFolder) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.jsonMapper(new JavalinJackson3(mapper(), false));
    config.http.maxRequestSize = MAX_BODY;
    config.http.prefer405over404 = true;
    config.jetty.multipartConfig.cacheDirectory(dataFolder.resolve("cache").toString());
    config.jetty.multipartConfig.maxInMemoryFileSize(64, SizeUnit.KB);
    config.jetty.multipartConfig.maxFileSize(200, SizeUnit.MB);
    config.jetty.multipartConfig.maxTotalRequestSize(4, SizeUnit.GB);
    config.jetty.modifyServer(
        server -> {
          server.setErrorHandler(new WireErrors());
          EagerContentHandler eager =
              new EagerContentHandler(
                  new EagerContentHandler.RetainedContentLoaderFactory(WHOLE_BODY, -1, false));
          server.setHandler(new GracefulHandler(eager));
          server.setStopTimeout(GRACE.toMillis());
        });
    config.staticFiles.add(
        files -> {
          files.hostedPath = "/";
          files.directory = "/site";
          files.location = Location.CLASSPATH;
          files.headers = Map.of("Cache-Control", "no-cache");
        });
  }

  private static JsonMapper mapper() {
    return BarMapJson.mapper().rebuild().disable(SerializationFeature.INDENT_OUTPUT).build();
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
    javalin.stop();
    measures.close();
  }
}
