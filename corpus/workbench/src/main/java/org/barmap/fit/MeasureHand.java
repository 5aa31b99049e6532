package org.barmap.fit;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import javax.imageio.ImageIO;
import org.barmap.map.Outline;
import org.barmap.map.Page.HandMark;
import org.barmap.map.Point;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.PageImage;
import org.barmap.sign.hand.HandWriting;
import tools.jackson.databind.JsonNode;

/**
 * Counts what is found by hand on made pages: a claim is right when a quarter of the ink in its box
 * was written (print may stand in a loop), a mark is found when half of its ink lies in claims.
 */
final class MeasureHand {

  private static final double RIGHT = 0.25;
  private static final double FOUND = 0.5;

  private final Map<String, int[]> kinds = new TreeMap<>();
  private final StringBuilder lines = new StringBuilder();
  private int claims;
  private int right;
  private int pages;
  private int bare;
  private int falsePages;
  private int falseOnBare;
  private long nanos;

  private MeasureHand() {}

  static String run(List<Path> folders) throws IOException {
    MeasureHand all = new MeasureHand();
    HandPages.each(folders, all::page);
    return all.said();
  }

  private void page(
      Path file,
      PageImage page,
      List<org.barmap.staff.FoundSystem> systems,
      Optional<BufferedImage> mask)
      throws IOException {
    long start = org.barmap.page.pixel.WorkStep.start();
    List<HandMark> found = HandWriting.on(page, systems).marks();
    nanos += org.barmap.page.pixel.WorkStep.start() - start;
    pages++;
    List<Box> boxes = found.stream().map(m -> Box.of(page, m.outline())).toList();
    if (mask.isEmpty()) {
      bare++;
      falseOnBare += found.size();
      falsePages += found.isEmpty() ? 0 : 1;
      if (!found.isEmpty()) {
        lines.append("%s: %d claimed%n".formatted(file.getFileName(), found.size()));
      }
    } else {
      measure(file, page, boxes, mask.get());
    }
    draw(file, page, boxes);
  }

  private void measure(Path file, PageImage page, List<Box> boxes, BufferedImage mask)
      throws IOException {
    byte[] gray = HandPages.gray(page);
    int width = page.gray().cols();
    int wrong = 0;
    for (Box b : boxes) {
      int ink = 0;
      int hand = 0;
      for (int y = b.y0; y < b.y1; y++) {
        for (int x = b.x0; x < b.x1; x++) {
          if ((gray[y * width + x] & 0xff) < HandPages.INK) {
            ink++;
            hand += HandPages.isWritten(page, mask, x + 0.5, y + 0.5) ? 1 : 0;
          }
        }
      }
      claims++;
      if (hand >= RIGHT * ink) {
        right++;
      } else {
        wrong++;
      }
    }
    String name = file.getFileName().toString();
    Path truth = file.resolveSibling(name.substring(0, name.lastIndexOf('.')) + ".json");
    JsonNode marks =
        BarMapJson.mapper().readTree(Files.readString(truth)).path("pages").path(0).path("byHand");
    int missed = 0;
    for (JsonNode m : marks) {
      List<Point> corners = new ArrayList<>();
      m.path("outline")
          .forEach(p -> corners.add(new Point(p.path(0).asDouble(), p.path(1).asDouble())));
      Box b =
          Box.of(page, new Outline(corners.get(0), corners.get(1), corners.get(2), corners.get(3)));
      int ink = 0;
      int hit = 0;
      for (int y = b.y0; y < b.y1; y++) {
        for (int x = b.x0; x < b.x1; x++) {
          if (HandPages.isWritten(page, mask, x + 0.5, y + 0.5)) {
            ink++;
            int u = x;
            int v = y;
            hit += boxes.stream().anyMatch(c -> c.has(u, v)) ? 1 : 0;
          }
        }
      }
      int[] count = kinds.computeIfAbsent(m.path("kind").asString(), k -> new int[2]);
      count[1]++;
      if (hit >= FOUND * Math.max(1, ink)) {
        count[0]++;
      } else {
        missed++;
      }
    }
    lines.append(
        "%s: %d claimed, %d wrong, %d missed%n".formatted(name, boxes.size(), wrong, missed));
  }

  private record Box(int x0, int y0, int x1, int y1) {
    static Box of(PageImage page, Outline o) {
      List<Point> p =
          List.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft()).stream()
              .map(q -> page.toWork(q.x(), q.y()))
              .toList();
      return new Box(
          (int) Math.max(0, p.stream().mapToDouble(Point::x).min().orElse(0)),
          (int) Math.max(0, p.stream().mapToDouble(Point::y).min().orElse(0)),
          (int) Math.min(page.gray().cols(), p.stream().mapToDouble(Point::x).max().orElse(0)),
          (int) Math.min(page.gray().rows(), p.stream().mapToDouble(Point::y).max().orElse(0)));
    }

    boolean has(int x, int y) {
      return x >= x0 && x < x1 && y >= y0 && y < y1;
    }
  }

  /** Draws what is claimed, for looking. */
  private static void draw(Path file, PageImage page, List<Box> boxes) throws IOException {
    if (boxes.isEmpty()) {
      return;
    }
    byte[] gray = HandPages.gray(page);
    int width = page.gray().cols();
    BufferedImage out = new BufferedImage(width, page.gray().rows(), BufferedImage.TYPE_INT_RGB);
    for (int i = 0; i < gray.length; i++) {
      out.setRGB(i % width, i / width, (gray[i] & 0xff) * 0x10101);
    }
    Graphics2D g = out.createGraphics();
    g.setColor(Color.RED);
    boxes.forEach(b -> g.drawRect(b.x0 - 2, b.y0 - 2, b.x1 - b.x0 + 4, b.y1 - b.y0 + 4));
    g.dispose();
    Path folder = Files.createDirectories(CorpusReadings.target("hand"));
    ImageIO.write(out, "png", folder.resolve(file.getFileName() + ".png").toFile());
  }

  private String said() {
    StringBuilder out = new StringBuilder(lines);
    out.append(
        String.format(
            Locale.ROOT,
            "%d pages, %.1f ms of processor time each%n%d claims, %d right: precision %.3f%n",
            pages,
            nanos / 1e6 / Math.max(1, pages),
            claims,
            right,
            right / (double) Math.max(1, claims)));
    int[] sum = new int[2];
    kinds.forEach(
        (k, c) -> {
          sum[0] += c[0];
          sum[1] += c[1];
          out.append("%s: %d of %d found%n".formatted(k, c[0], c[1]));
        });
    out.append("all: %d of %d found%n".formatted(sum[0], sum[1]));
    out.append(
        "%d pages nothing was written on: %d claims on %d pages%n"
            .formatted(bare, falseOnBare, falsePages));
    return out.toString();
  }
}
