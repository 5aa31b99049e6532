package org.barmap.web.operate;

import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.router.Endpoint;
import io.micrometer.core.instrument.FunctionCounter;
import io.micrometer.core.instrument.FunctionTimer;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.Timer;
import io.micrometer.core.instrument.binder.jvm.JvmGcMetrics;
import io.micrometer.core.instrument.binder.jvm.JvmMemoryMetrics;
import io.micrometer.core.instrument.binder.jvm.JvmThreadMetrics;
import io.micrometer.core.instrument.binder.system.FileDescriptorMetrics;
import io.micrometer.core.instrument.binder.system.ProcessorMetrics;
import io.micrometer.core.instrument.binder.system.UptimeMetrics;
import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.ToDoubleFunction;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.work.Events;
import org.barmap.work.ReadingCounts;
import org.barmap.work.Worker;

/**
 * What is counted and timed, in the text format of Prometheus at {@code /metrics}, for the owner
 * and for a key that opens nothing else. All names begin with {@code barmap_}, {@code jvm_}, {@code
 * process_} or {@code system_}; times are seconds, sizes bytes.
 */
public final class Measures implements AutoCloseable {

  /** Where they are. */
  public static final String ADDRESS = "/metrics";

  /** The text format, version 0.0.4. */
  private static final String TYPE = "text/plain; version=0.0.4; charset=utf-8";

  /** Upper ends of the classes into which the times of requests are sorted, in milliseconds. */
  private static final List<Integer> CLASSES =
      List.of(5, 10, 25, 50, 100, 250, 500, 1_000, 2_500, 10_000);

  private final PrometheusMeterRegistry registry =
      new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);

  private final JvmGcMetrics collections = new JvmGcMetrics();

  /** Begins to count. */
  public Measures(Library library, Worker worker, Events events) {
    new JvmMemoryMetrics().bindTo(registry);
    new JvmThreadMetrics().bindTo(registry);
    collections.bindTo(registry);
    new ProcessorMetrics().bindTo(registry);
    new FileDescriptorMetrics().bindTo(registry);
    new UptimeMetrics().bindTo(registry);
    gauge("barmap.live.listeners", "Browsers that hear what happens", events, Events::listening);
    jobs("waiting", library, Jobs.Counts::waiting);
    jobs("running", library, Jobs.Counts::running);
    jobs("failed", library, Jobs.Counts::failed);
    connections("busy", library, Library.Connections::busy);
    connections("idle", library, Library.Connections::idle);
    connections("wanted", library, Library.Connections::wanted);
    connections("most", library, Library.Connections::most);
    ReadingCounts counts = worker.counts();
    FunctionTimer.builder(
            "barmap.reading.pages",
            counts,
            ReadingCounts::pages,
            ReadingCounts::seconds,
            TimeUnit.SECONDS)
        .description("Pictures of pages looked at, and how long it took")
        .register(registry);
    FunctionCounter.builder("barmap.reading.failures", counts, ReadingCounts::failed)
        .description("Pages that could not be read")
        .register(registry);
  }

  private <T> void gauge(String name, String what, T of, ToDoubleFunction<T> value) {
    Gauge.builder(name, of, value).description(what).register(registry);
  }

  private void jobs(String state, Library library, ToDoubleFunction<Jobs.Counts> value) {
    Gauge.builder("barmap.reading.jobs", library, l -> value.applyAsDouble(l.jobs().counts()))
        .description("Reading jobs of books that are not in the bin, by how far they are")
        .tag("state", state)
        .register(registry);
  }

  private void connections(
      String state, Library library, ToDoubleFunction<Library.Connections> value) {
    Gauge.builder("barmap.store.connections", library, l -> value.applyAsDouble(l.connections()))
        .description("Connections to the store")
        .tag("state", state)
        .register(registry);
  }

  /** Hears of every request that was answered. */
  public void listen(JavalinConfig config) {
    config.requestLogger.http(
        (ctx, milliseconds) -> {
          String route = route(ctx);
          count(ctx.method().name(), route, ctx.statusCode(), milliseconds);
          RequestLog.write(ctx.method().name(), route, ctx.statusCode(), milliseconds);
        });
  }

  private void count(String method, String route, int status, float milliseconds) {
    // all of one name have the same classes, or none of them can be written
    Timer.builder("barmap.requests")
        .description("Requests answered; a line of live events when it ends")
        .tags("method", method, "route", route, "status", String.valueOf(status))
        .serviceLevelObjectives(CLASSES.stream().map(Duration::ofMillis).toArray(Duration[]::new))
        .register(registry)
        .record((long) (milliseconds * 1_000), TimeUnit.MICROSECONDS);
  }

  /** Names what was asked by the route it matched: never by what stood in the address. */
  private static String route(Context ctx) {
    Endpoint route = ctx.endpoints().matchedHttpEndpoint();
    if (route != null) {
      return route.path;
    }
    return ctx.statusCode() < 400 ? "files of the pages" : "none";
  }

  /** Adds the address to the server. */
  public void register(RoutesConfig routes) {
    routes.get(
        ADDRESS,
        ctx -> {
          ctx.header("Cache-Control", "no-store");
          ctx.contentType(TYPE).result(registry.scrape());
        });
  }

  @Override
  public void close() {
    collections.close();
    registry.close();
  }
}
