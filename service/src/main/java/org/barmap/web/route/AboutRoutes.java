package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import java.nio.file.Path;
import java.util.Map;

/** What this is, and where it keeps things. */
public final class AboutRoutes {

  private static final String CARE =
      "A rented book belongs to its publisher. Keep pictures of it on your own machine, only as"
          + " long as the hire agreement allows, and delete them when the book goes back. What the"
          + " agreement, the house and the people in charge say comes first.";

  private final Path dataFolder;

  public AboutRoutes(Path dataFolder) {
    this.dataFolder = dataFolder;
  }

  public void register(RoutesConfig routes) {
    routes.get(
        "/api/about",
        ctx ->
            ctx.json(
                Map.of(
                    "version",
                    Version.text(),
                    "dataFolder",
                    dataFolder.toAbsolutePath().toString(),
                    "care",
                    CARE)));
  }
}
