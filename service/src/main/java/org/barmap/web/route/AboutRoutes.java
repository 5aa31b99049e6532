package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import org.barmap.library.Library;

/** What this is, where it keeps things, and what was found there. */
public final class AboutRoutes {

  private static final String CARE =
      "A rented book belongs to its publisher. Keep pictures of it on your own machine, only as"
          + " long as the hire agreement allows, and delete them when the book goes back. What the"
          + " agreement, the house and the people in charge say comes first.";

  private final Library library;
  private final Path dataFolder;

  public AboutRoutes(Library library, Path dataFolder) {
    this.library = library;
    this.dataFolder = dataFolder;
  }

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/about", this::about);
    routes.get("/api/kept", ctx -> ctx.json(library.keeping().kept()));
    routes.delete("/api/kept/set-aside", this::deleteSetAside);
  }

  private void about(Context ctx) {
    ctx.json(
        Map.of(
            "version",
            Version.text(),
            "dataFolder",
            dataFolder.toAbsolutePath().toString(),
            "notices",
            library.keeping().notices(),
            "setAside",
            library.keeping().setAside(),
            "care",
            CARE));
  }

  private void deleteSetAside(Context ctx) throws IOException {
    library.keeping().deleteSetAside();
    ctx.status(204);
  }
}
