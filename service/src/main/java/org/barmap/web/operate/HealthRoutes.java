package org.barmap.web.operate;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import org.barmap.library.Library;
import org.barmap.work.Worker;

/**
 * Whether the service is alive, and whether it can work at this moment. No key is needed: who
 * watches over it has none, and the answers are the names of parts and nothing else.
 */
public record HealthRoutes(Library library, Worker worker, BooleanSupplier ending) {

  private static final System.Logger LOG = System.getLogger(HealthRoutes.class.getName());

  /**
   * An answer.
   *
   * @param status "up" or "down"
   * @param failing the parts that don't work: store, pictures, reading, ending
   */
  record Health(String status, List<String> failing) {
    /** Takes a defensive copy. */
    Health {
      failing = List.copyOf(failing);
    }
  }

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/health/live", ctx -> answer(ctx, List.of()));
    routes.get("/health/ready", ctx -> answer(ctx, failing()));
  }

  private static void answer(Context ctx, List<String> failing) {
    ctx.header("Cache-Control", "no-store");
    ctx.status(failing.isEmpty() ? 200 : 503);
    ctx.json(new Health(failing.isEmpty() ? "up" : "down", failing));
  }

  private List<String> failing() {
    Map<String, BooleanSupplier> parts =
        Map.of(
            "store",
            () -> library.jobs().counts().all() >= 0,
            "pictures",
            library.pages()::isReady,
            "reading",
            worker::isAtWork,
            "ending",
            () -> !ending.getAsBoolean());
    List<String> failing = new ArrayList<>();
    parts.forEach(
        (name, works) -> {
          if (!works(works)) {
            failing.add(name);
          }
        });
    failing.sort(String::compareTo);
    return failing;
  }

  private static boolean works(BooleanSupplier part) {
    try {
      return part.getAsBoolean();
    } catch (RuntimeException e) {
      LOG.log(System.Logger.Level.WARNING, "a part of the service does not answer", e);
      return false;
    }
  }
}
