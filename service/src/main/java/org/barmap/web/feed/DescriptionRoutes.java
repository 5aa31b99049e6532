package org.barmap.web.feed;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import tools.jackson.databind.JsonNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/**
 * What the service says of itself: every route as OpenAPI 3.1, and the schemas of its formats.
 * Nothing of a book is in it, so it is given without a key.
 */
public final class DescriptionRoutes {

  private static final String FILE = "/openapi.yaml";

  /** Read when it is first asked for: that takes a fifth of a start. */
  private static final class Description {
    private static final JsonNode READ = read();
  }

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/openapi.json", ctx -> fresh(ctx).json(Description.READ));
    Published.schemas()
        .forEach(
            (address, text) ->
                routes.get(
                    address,
                    ctx -> fresh(ctx).contentType("application/schema+json").result(text)));
  }

  private static Context fresh(Context ctx) {
    return ctx.header("Cache-Control", "no-cache");
  }

  /** The same file is served as it is by the site; programs that know no YAML take this. */
  private static JsonNode read() {
    try (InputStream in = DescriptionRoutes.class.getResourceAsStream("/site" + FILE)) {
      if (in == null) {
        throw new IllegalStateException("the build lacks " + FILE);
      }
      return new YAMLMapper().readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
