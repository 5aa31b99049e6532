package org.barmap.sign;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.map.Page.HandMark;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;
import org.barmap.map.json.BarMapJson;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.Sound;
import tools.jackson.databind.SerializationFeature;

/**
 * What was read on a page in a form that can be stored, so that the book can be settled again
 * without reading the page again.
 *
 * @param source file name
 * @param width of the picture, pixels
 * @param height of the picture, pixels
 * @param systems from top to bottom
 * @param folio the page's own number; none in pages stored before it was kept
 * @param byHand what players wrote on it; none in pages stored before that was looked for
 */
public record StoredPage(
    String source,
    int width,
    int height,
    List<StoredSystem> systems,
    Optional<Folio> folio,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<HandMark> byHand) {

  /** Distance at which the shape of a system is kept; staff spaces. */
  private static final double EVERY = 2;

  /** Width of an upright line across a system, staff spaces. */
  private static final double THIN = 0.01;

  /** What a length is taken for at least, so that it can be divided by; staff spaces. */
  private static final double NOT_NOTHING = 1e-9;

  /** Takes a defensive copy. */
  public StoredPage {
    systems = List.copyOf(systems);
    folio = folio == null ? Optional.empty() : folio;
    byHand = byHand == null ? List.of() : List.copyOf(byHand);
  }

  /**
   * A system with its shape as upright lines across it.
   *
   * @param system as in the map
   * @param length staff spaces
   * @param signs along the staff
   * @param tops points on the top line, one at every {@value #EVERY} staff spaces and at the end
   * @param bottoms points on the bottom line, likewise
   * @param begin where its own lines begin; staff spaces
   * @param musicBegin how far along nothing but clef, key and meter stands; staff spaces
   * @param inkEnd how far along something is written; staff spaces
   * @param sounds note heads and rests inside bars; none in pages stored before they were read
   */
  public record StoredSystem(
      StaffSystem system,
      double length,
      List<Sign> signs,
      List<Point> tops,
      List<Point> bottoms,
      double begin,
      double musicBegin,
      double inkEnd,
      List<Sound> sounds) {

    /** Takes defensive copies. */
    public StoredSystem {
      signs = List.copyOf(signs);
      tops = List.copyOf(tops);
      bottoms = List.copyOf(bottoms);
      sounds = sounds == null ? List.of() : List.copyOf(sounds);
    }

    private Outline between(double from, double to) {
      return new Outline(at(tops, from), at(tops, to), at(bottoms, to), at(bottoms, from));
    }

    /** Returns the point at a place along a line; beyond its ends the line goes straight on. */
    private Point at(List<Point> line, double place) {
      int last = line.size() - 1;
      int i = (int) Math.max(0, Math.min(last - 1, Math.floor(place / EVERY)));
      double from = i * EVERY;
      double to = i + 1 == last ? length : from + EVERY;
      double share = (place - from) / Math.max(NOT_NOTHING, to - from);
      Point a = line.get(i);
      Point b = line.get(i + 1);
      return new Point(a.x() + (b.x() - a.x()) * share, a.y() + (b.y() - a.y()) * share);
    }
  }

  /** Returns what was read on a page, to be stored. */
  public static String write(ReadPage page) {
    List<StoredSystem> systems = new ArrayList<>();
    for (ReadSystem s : page.systems()) {
      List<Point> tops = new ArrayList<>();
      List<Point> bottoms = new ArrayList<>();
      int steps = (int) Math.max(1, Math.ceil(s.length() / EVERY));
      for (int i = 0; i <= steps; i++) {
        double at = i == steps ? s.length() : i * EVERY;
        Outline o = s.shape().between(at, at + THIN);
        tops.add(o.topLeft().rounded());
        bottoms.add(o.bottomLeft().rounded());
      }
      systems.add(
          new StoredSystem(
              s.system(),
              s.length(),
              s.signs(),
              tops,
              bottoms,
              s.begin(),
              s.musicBegin(),
              s.inkEnd(),
              s.sounds()));
    }
    StoredPage stored =
        new StoredPage(
            page.source(), page.width(), page.height(), systems, page.folio(), page.byHand());
    return BarMapJson.mapper()
        .writer()
        .without(SerializationFeature.INDENT_OUTPUT)
        .writeValueAsString(stored);
  }

  /** Returns what was read on a page, as the page of this index. */
  public static ReadPage read(String json, int index) {
    StoredPage stored = BarMapJson.mapper().readValue(json, StoredPage.class);
    List<ReadSystem> systems = new ArrayList<>();
    for (StoredSystem s : stored.systems) {
      systems.add(
          new ReadSystem(
              s.system, s.length, s::between, s.signs, s.begin, s.musicBegin, s.inkEnd, s.sounds));
    }
    return new ReadPage(
        index, stored.source, stored.width, stored.height, systems, stored.folio, stored.byHand);
  }
}
