package org.barmap.web.feed;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.barmap.exchange.region.BarPlaces;
import org.barmap.exchange.region.BarView;
import org.barmap.exchange.region.Served;
import org.barmap.exchange.region.WebAnnotations;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.web.picture.PageParts;
import tools.jackson.databind.node.ObjectNode;

/** Bars as regions of pages: all of a page as annotations, one by its address. */
public record RegionRoutes(Library library, Guard guard) {

  private static final int MOST_AROUND = 16;
  private static final int LEAST_WIDTH = 16;
  private static final int MOST_WIDTH = 3000;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/annotations", this::collection);
    routes.get("/api/books/{b}/annotations/{p}", this::page);
    routes.get("/api/books/{b}/bars/{at}", this::bar);
    routes.get("/api/books/{b}/bars/{at}/image", this::image);
  }

  private void collection(Context ctx) {
    Serving serving = Serving.of(library, guard, ctx);
    send(ctx, serving, new WebAnnotations(serving.served(), serving.map()).collection());
  }

  private void page(Context ctx) {
    Serving serving = Serving.of(library, guard, ctx);
    PageCard page = Requests.page(library, ctx);
    Served.Leaf leaf =
        serving
            .served()
            .page(page.index())
            .filter(Served.Leaf::hasRoom)
            .orElseThrow(() -> new ApiException(ApiError.NO_PICTURE, "No bar has a place on it"));
    WebAnnotations bars = new WebAnnotations(serving.served(), serving.map());
    boolean canvas = "canvas".equals(ctx.queryParam("on"));
    send(ctx, serving, canvas ? bars.onCanvas(leaf) : bars.page(leaf));
  }

  private static void send(Context ctx, Serving serving, ObjectNode tree) {
    Requests.etag(ctx, serving.revision());
    ctx.json(tree);
    ctx.contentType(WebAnnotations.TYPE);
  }

  private void bar(Context ctx) {
    Serving serving = Serving.of(library, guard, ctx);
    BarPlaces places = new BarPlaces(serving.map());
    BarPlaces.At at = found(ctx, places);
    Requests.etag(ctx, serving.revision());
    ctx.json(new BarView(serving.served(), places).of(at));
  }

  private static BarPlaces.At found(Context ctx, BarPlaces places) {
    BarPlaces.Looked looked = places.find(ctx.pathParam("at"));
    if (looked instanceof BarPlaces.One one) {
      return one.at();
    }
    BarPlaces.None none = (BarPlaces.None) looked;
    throw new ApiException(ApiError.NO_BAR, none.why(), Map.of("instead", none.instead()));
  }

  private void image(Context ctx) throws IOException {
    Serving serving = Serving.of(library, guard, ctx);
    BarPlaces places = new BarPlaces(serving.map());
    Bar entry = found(ctx, places).entry();
    Served.Leaf leaf =
        new BarView(serving.served(), places)
            .page(entry)
            .orElseThrow(
                () ->
                    new ApiException(
                        ApiError.NO_PICTURE, "The bar lies on no page: the book came without any"));
    if (!leaf.picture()) {
      throw new ApiException(
          ApiError.NO_PICTURE, "The picture of page " + leaf.index() + " is not there any more");
    }
    int around = Requests.number(ctx, "around", 0, MOST_AROUND).orElse(0);
    int width = Requests.number(ctx, "width", LEAST_WIDTH, MOST_WIDTH).orElse(MOST_WIDTH);
    PageCard page = library.pages().find(ctx.pathParam("b"), leaf.id()).orElseThrow();
    List<Bar> bars = beside(serving.map(), entry, around);
    byte[] jpeg = PageParts.jpeg(library.pages().picture(ctx.pathParam("b"), page), bars, width);
    ctx.contentType("image/jpeg");
    ctx.header("Cache-Control", "private, no-cache");
    ctx.result(jpeg);
  }

  /** An entry with some before and after it, as far as its line goes. */
  private static List<Bar> beside(BarMap map, Bar entry, int around) {
    int at = map.indexOf(entry.id());
    List<Bar> bars = new ArrayList<>();
    int from = Math.max(0, at - around);
    int to = Math.min(map.bars().size(), at + around + 1);
    for (Bar bar : map.bars().subList(from, to)) {
      if (bar.page() == entry.page() && bar.system() == entry.system()) {
        bars.add(bar);
      }
    }
    return bars;
  }
}
