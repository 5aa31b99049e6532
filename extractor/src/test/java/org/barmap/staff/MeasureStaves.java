package org.barmap.staff;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.PageImage;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.page.file.PageFiles;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import tools.jackson.databind.JsonNode;

/**
 * Measures staff finding on folders of pages with truth beside them ({@code barmap/1}); run by
 * hand.
 *
 * <p>Arguments: folders; {@code --overlay DIR} draws what was found, {@code --strips} adds strips.
 */
final class MeasureStaves {

  private static final boolean DEBUG = Boolean.getBoolean("candidates");

  private MeasureStaves() {}

  record Tally(int truth, int found, int hit, double ends, double millis) {}

  public static void main(String[] args) throws IOException {
    List<Path> folders = new ArrayList<>();
    Optional<Path> overlay = Optional.empty();
    boolean strips = false;
    for (int i = 0; i < args.length; i++) {
      if (args[i].equals("--overlay")) {
        overlay = Optional.of(Path.of(args[++i]));
        Files.createDirectories(overlay.get());
      } else if (args[i].equals("--strips")) {
        strips = true;
      } else {
        folders.add(Path.of(args[i]));
      }
    }
    for (Path folder : folders) {
      measure(folder, overlay, strips);
    }
  }

  private static void measure(Path folder, Optional<Path> overlay, boolean strips)
      throws IOException {
    int truth = 0;
    int found = 0;
    int hit = 0;
    int pages = 0;
    double millis = 0;
    double worstEnd = 0;
    double worstOff = 0;
    List<Double> times = new ArrayList<>();
    List<Path> files = PageFiles.list(List.of(folder)).files();
    for (Path file : files) {
      long start = System.nanoTime();
      List<Outline> want = truth(file);
      List<FoundSystem> all = new ArrayList<>();
      double off = 99;
      StringBuilder work = new StringBuilder();
      double ms = 0;
      try (PageSource source = new PageSource(List.of(file))) {
        while (source.hasNext()) {
          PageResult result = source.next();
          result.findings().forEach(f -> work.append(f.code()).append(' '));
          if (result instanceof PageResult.Loaded loaded) {
            try (PageImage page = loaded.page()) {
              List<FoundSystem> systems = StaffFinder.find(page);
              ms = (System.nanoTime() - start) / 1e6;
              off = Math.min(off, off(file, page, systems));
              all.addAll(systems);
              work.append(
                  String.format(
                      Locale.ROOT,
                      "space %.1f %dx%d ",
                      page.staffSpace(),
                      page.gray().cols(),
                      page.gray().rows()));
              if (DEBUG) {
                StaffFinder.candidates(page, Pixels.of(page.gray()))
                    .forEach(c -> System.out.println("    " + c.describe()));
              }
              if (overlay.isPresent()) {
                draw(file, page, systems, want, overlay.get());
                if (strips) {
                  strips(file, page, systems, overlay.get());
                }
              }
            }
            pages++;
          }
        }
      }
      times.add(ms);
      millis += ms;
      int ok = 0;
      double end = 0;
      for (Outline t : want) {
        for (FoundSystem f : all) {
          Outline o = f.outline();
          if (iou(t, o) > 0.5) {
            ok++;
            end = Math.max(end, t.leftMiddle().distance(o.leftMiddle()) / f.staffSpace());
            end = Math.max(end, t.rightMiddle().distance(o.rightMiddle()) / f.staffSpace());
            break;
          }
        }
      }
      worstEnd = Math.max(end, worstEnd);
      worstOff = Math.max(off, worstOff);
      truth += want.size();
      found += all.size();
      hit += ok;
      boolean fine = ok == want.size() && all.size() == ok && end < 1 && off < 0.3;
      System.out.printf(
          Locale.ROOT,
          "%s%-40s truth %2d found %2d hit %2d  ends %.2f off %.2f  %s %.0f ms %s%n",
          fine ? "  " : "! ",
          file.getFileName(),
          want.size(),
          all.size(),
          ok,
          end,
          off,
          work,
          ms,
          all.stream().anyMatch(f -> f.staves().size() > 1)
              ? all.stream().map(f -> f.staves().size()).toList()
              : "");
    }
    times.sort(null);
    System.out.printf(
        Locale.ROOT,
        "%s: pages %d  recall %.4f  precision %.4f  worst end %.2f off %.2f spaces  median %.0f ms mean %.0f%n",
        folder.getFileName(),
        pages,
        truth == 0 ? 1.0 : hit / (double) truth,
        found == 0 ? 1.0 : hit / (double) found,
        worstEnd,
        worstOff,
        times.isEmpty() ? 0 : times.get(times.size() / 2),
        millis / Math.max(1, pages));
  }

  /** Returns the most a staff's middle line is off its truth, in staff spaces; 0 without truth. */
  private static double off(Path file, PageImage page, List<FoundSystem> systems)
      throws IOException {
    Path json =
        file.resolveSibling(file.getFileName().toString().replaceFirst("\\.[^.]+$", ".signs.json"));
    double worst = 0;
    if (!Files.exists(json)) {
      return worst;
    }
    JsonNode tree = BarMapJson.mapper().readTree(Files.readString(json));
    for (JsonNode s : tree.path("staves")) {
      JsonNode points = s.path("midline");
      for (int i = 0; i + 1 < points.size(); i++) {
        for (int part = 0; part < 8; part++) {
          double f = (part + 0.5) / 8;
          double x =
              points.path(i).path(0).asDouble() * (1 - f)
                  + points.path(i + 1).path(0).asDouble() * f;
          double y =
              points.path(i).path(1).asDouble() * (1 - f)
                  + points.path(i + 1).path(1).asDouble() * f;
          Point w = page.toWork(x, y);
          double best = 99;
          for (FoundSystem system : systems) {
            for (Staff staff : system.staves()) {
              if (w.x() > staff.left() && w.x() < staff.right()) {
                best =
                    Math.min(best, Math.abs(staff.middleAt(w.x()) - w.y()) / staff.spaceAt(w.x()));
              }
            }
          }
          if (best < 2.5) {
            worst = Math.max(worst, best);
          }
        }
      }
    }
    return worst;
  }

  static List<Outline> truth(Path file) throws IOException {
    String name = file.getFileName().toString().replaceFirst("\\.[^.]+$", ".json");
    Path json = file.resolveSibling(name);
    List<Outline> out = new ArrayList<>();
    if (!Files.exists(json)) {
      return out;
    }
    JsonNode tree = BarMapJson.mapper().readTree(Files.readString(json));
    for (JsonNode s : tree.path("pages").path(0).path("systems")) {
      Point[] p = new Point[4];
      for (int i = 0; i < 4; i++) {
        p[i] =
            new Point(
                s.path("outline").path(i).path(0).asDouble(),
                s.path("outline").path(i).path(1).asDouble());
      }
      out.add(new Outline(p[0], p[1], p[2], p[3]));
    }
    return out;
  }

  static double iou(Outline a, Outline b) {
    try (org.barmap.page.pixel.Mats scope = new org.barmap.page.pixel.Mats()) {
      Mat pa = scope.keep(polygon(a));
      Mat pb = scope.keep(polygon(b));
      Mat both = scope.mat();
      double i = Imgproc.intersectConvexConvex(pa, pb, both);
      double u = Imgproc.contourArea(pa) + Imgproc.contourArea(pb) - i;
      return u <= 0 ? 0 : i / u;
    }
  }

  private static org.opencv.core.MatOfPoint2f polygon(Outline o) {
    return new org.opencv.core.MatOfPoint2f(
        p(o.topLeft()), p(o.topRight()), p(o.bottomRight()), p(o.bottomLeft()));
  }

  private static org.opencv.core.Point p(Point p) {
    return new org.opencv.core.Point(p.x(), p.y());
  }

  private static void draw(
      Path file, PageImage page, List<FoundSystem> systems, List<Outline> want, Path dir) {
    Mat canvas = new Mat();
    Imgproc.cvtColor(page.gray(), canvas, Imgproc.COLOR_GRAY2BGR);
    for (Outline o : want) {
      List<Point> points = List.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft());
      poly(
          canvas,
          points.stream().map(q -> page.toWork(q.x(), q.y())).toList(),
          true,
          new Scalar(0, 160, 0),
          1);
    }
    for (FoundSystem system : systems) {
      for (Staff staff : system.staves()) {
        for (int k = -2; k <= 2; k += 2) {
          List<Point> line = new ArrayList<>();
          for (double t = 0; t < staff.length(); t += 1) {
            line.add(staff.at(t, k));
          }
          line.add(staff.at(staff.length(), k));
          poly(canvas, line, false, new Scalar(0, 0, 255), k == 0 ? 2 : 1);
        }
        poly(canvas, List.of(staff.at(0, -3), staff.at(0, 3)), false, new Scalar(255, 0, 0), 2);
        poly(
            canvas,
            List.of(staff.at(staff.length(), -3), staff.at(staff.length(), 3)),
            false,
            new Scalar(255, 0, 0),
            2);
      }
    }
    double shrink = Math.min(1, 1500.0 / Math.max(canvas.cols(), canvas.rows()));
    Mat small = new Mat();
    Imgproc.resize(canvas, small, new Size(), shrink, shrink, Imgproc.INTER_AREA);
    Imgcodecs.imwrite(
        dir.resolve(
                file.getFileName().toString().replaceFirst("\\.[^.]+$", "")
                    + "-"
                    + page.indexInSource()
                    + ".png")
            .toString(),
        small);
    canvas.release();
    small.release();
  }

  private static void poly(
      Mat canvas, List<Point> points, boolean closed, Scalar color, int thick) {
    MatOfPoint m =
        new MatOfPoint(points.stream().map(MeasureStaves::p).toArray(org.opencv.core.Point[]::new));
    Imgproc.polylines(canvas, List.of(m), closed, color, thick, Imgproc.LINE_AA);
    m.release();
  }

  private static void strips(Path file, PageImage page, List<FoundSystem> systems, Path dir) {
    int i = 0;
    for (FoundSystem system : systems) {
      for (Staff staff : system.staves()) {
        Strip strip = Strip.cut(page, staff, 8);
        Mat m = new Mat(strip.height(), strip.width(), org.opencv.core.CvType.CV_8U);
        m.put(0, 0, strip.gray());
        Imgcodecs.imwrite(
            dir.resolve(
                    file.getFileName().toString().replaceFirst("\\.[^.]+$", "")
                        + "-strip"
                        + ++i
                        + ".png")
                .toString(),
            m);
        m.release();
      }
    }
  }
}
