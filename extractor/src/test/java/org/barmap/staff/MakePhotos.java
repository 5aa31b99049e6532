package org.barmap.staff;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.pixel.OpenCv;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfInt;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Makes photographs of pages with the truth bent along; run by hand.
 *
 * <p>Arguments: folder of pages with truth, folder to write, seed, how many, and what: {@code
 * photo} (one page on a table), {@code opening} (two pages side by side), {@code turned} (a photo
 * lying on its side or head).
 */
final class MakePhotos {

  private MakePhotos() {}

  /** Where a page point comes to lie in the photograph. */
  interface Warp {
    double[] apply(double x, double y);
  }

  public static void main(String[] args) throws IOException {
    OpenCv.load();
    Path in = Path.of(args[0]);
    Path out = Path.of(args[1]);
    Files.createDirectories(out);
    Random random = new Random(Long.parseLong(args[2]));
    int count = Integer.parseInt(args[3]);
    String kind = args[4];
    List<Path> pages;
    try (Stream<Path> list = Files.list(in)) {
      pages = list.filter(p -> p.toString().endsWith(".png")).sorted().toList();
    }
    for (int i = 0; i < count; i++) {
      List<Path> from = new ArrayList<>();
      from.add(pages.get(random.nextInt(pages.size())));
      if (kind.equals("opening")) {
        from.add(pages.get(random.nextInt(pages.size())));
      }
      make(from, out.resolve(kind + "-" + i), random, kind);
    }
  }

  private static void make(List<Path> from, Path out, Random random, String kind)
      throws IOException {
    // An A4-like sheet for each page, scaled so that staff spaces look like a phone's.
    double space = 11 + random.nextDouble() * 9;
    List<Mat> sheets = new ArrayList<>();
    List<ObjectNode> truths = new ArrayList<>();
    double sheetW = 0;
    double sheetH = 0;
    for (Path p : from) {
      JsonNode truth = BarMapJson.mapper().readTree(Files.readString(sibling(p, ".json")));
      double s =
          truth.path("pages").path(0).path("systems").path(0).path("staffSpace").asDouble(16);
      Mat page = Imgcodecs.imread(p.toString(), Imgcodecs.IMREAD_GRAYSCALE);
      Mat scaled = new Mat();
      double f = space / s;
      Imgproc.resize(
          page, scaled, new Size(), f, f, f < 1 ? Imgproc.INTER_AREA : Imgproc.INTER_CUBIC);
      sheets.add(scaled);
      truths.add(scale(truth, f));
      sheetW = Math.max(sheetW, scaled.cols());
      sheetH = Math.max(sheetH, scaled.rows());
    }
    sheetH = Math.max(sheetH, 1.25 * sheetW);
    int n = sheets.size();
    double w = sheetW * n;
    double h = sheetH;
    double margin = 0.04 + 0.1 * random.nextDouble();
    int outW = (int) (w * (1 + 2 * margin));
    int outH = (int) (h * (1 + 2 * margin));
    double x0 = w * margin;
    double y0 = h * margin;
    double tilt = (random.nextDouble() - 0.5) * 2 * Math.toRadians(6);
    double persX = (random.nextDouble() - 0.5) * 0.16;
    double persY = (random.nextDouble() - 0.5) * 0.16;
    double curl = random.nextDouble() * 0.035 * h;
    double side = random.nextBoolean() ? 1 : -1;
    double width = w;
    double sheet = sheetW;
    Warp warp =
        (x, y) -> {
          double u = x / sheet;
          double bend;
          if (n == 2) {
            double d = Math.abs(u - 1);
            bend = curl * Math.exp(-d * d / 0.09);
          } else {
            double d = side > 0 ? 1 - u : u;
            bend = curl * Math.exp(-d * d / 0.09);
          }
          double yy = y + bend * (0.4 + 0.6 * (1 - y / h));
          double cx = x / width - 0.5;
          double cy = yy / h - 0.5;
          double z = 1 + persX * cx + persY * cy;
          double px = cx / z * width;
          double py = cy / z * h;
          double qx = px * Math.cos(tilt) - py * Math.sin(tilt);
          double qy = px * Math.sin(tilt) + py * Math.cos(tilt);
          return new double[] {qx + width / 2 + x0, qy + h / 2 + y0};
        };
    // Backward map by fixed-point iteration on a coarse grid.
    int step = 8;
    int gw = outW / step + 2;
    int gh = outH / step + 2;
    float[] mx = new float[gw * gh];
    float[] my = new float[gw * gh];
    for (int j = 0; j < gh; j++) {
      double ex = Double.NaN;
      double ey = 0;
      for (int i = 0; i < gw; i++) {
        double tx = i * step;
        double ty = j * step;
        double x = Double.isNaN(ex) ? tx - x0 : ex + step;
        double y = Double.isNaN(ex) ? ty - y0 : ey;
        for (int k = 0; k < 30; k++) {
          double[] p = warp.apply(x, y);
          x += 0.8 * (tx - p[0]);
          y += 0.8 * (ty - p[1]);
        }
        ex = x;
        ey = y;
        mx[j * gw + i] = (float) x;
        my[j * gw + i] = (float) y;
      }
    }
    Mat flat = new Mat((int) h, (int) w, CvType.CV_8U, new Scalar(250));
    for (int k = 0; k < n; k++) {
      Mat part =
          flat.submat(
              0,
              sheets.get(k).rows(),
              (int) (k * sheetW),
              (int) (k * sheetW) + sheets.get(k).cols());
      sheets.get(k).copyTo(part);
    }
    Mat bigX = grid(mx, gw, gh, step, outW, outH);
    Mat bigY = grid(my, gw, gh, step, outW, outH);
    Mat photo = new Mat();
    Imgproc.remap(
        flat, photo, bigX, bigY, Imgproc.INTER_LINEAR, Core.BORDER_CONSTANT, new Scalar(0));
    light(photo, mx, my, gw, gh, step, w, h, n, random);
    Imgproc.GaussianBlur(photo, photo, new Size(0, 0), 0.4 + random.nextDouble() * space * 0.08);
    Mat noise = new Mat(photo.size(), CvType.CV_16S);
    Core.randn(noise, 0, 2 + random.nextDouble() * 4);
    Core.add(photo, noise, photo, new Mat(), CvType.CV_8U);
    int turn = kind.equals("turned") ? 1 + random.nextInt(3) : 0;
    if (turn > 0) {
      Core.rotate(
          photo,
          photo,
          turn == 1
              ? Core.ROTATE_90_CLOCKWISE
              : turn == 2 ? Core.ROTATE_180 : Core.ROTATE_90_COUNTERCLOCKWISE);
    }
    Imgcodecs.imwrite(
        out + ".jpg", photo, new MatOfInt(Imgcodecs.IMWRITE_JPEG_QUALITY, 60 + random.nextInt(35)));
    write(out, truths, sheetW, warp, turn, outW, outH);
  }

  private static void light(
      Mat photo,
      float[] mx,
      float[] my,
      int gw,
      int gh,
      int step,
      double w,
      double h,
      int n,
      Random random) {
    double a = random.nextDouble() * 2 * Math.PI;
    double dark = 0.25 + 0.4 * random.nextDouble();
    double base = 30 + random.nextInt(90);
    double grain = 4 + random.nextInt(25);
    byte[] v = new byte[photo.rows() * photo.cols()];
    photo.get(0, 0, v);
    double edge = random.nextDouble();
    for (int y = 0; y < photo.rows(); y++) {
      for (int x = 0; x < photo.cols(); x++) {
        int i = y * photo.cols() + x;
        double px = mx[(y / step) * gw + x / step];
        double py = my[(y / step) * gw + x / step];
        boolean inside = px >= 0 && py >= 0 && px < w && py < h;
        double g = v[i] & 0xff;
        double u =
            (x / (double) photo.cols() - 0.5) * Math.cos(a)
                + (y / (double) photo.rows() - 0.5) * Math.sin(a);
        double l = 0.92 - dark * (u + 0.5);
        if (u > edge - 0.3) {
          l *= 0.8 + 0.2 * Math.exp(-(u - edge + 0.3) * 20);
        }
        if (n == 2) {
          double d = Math.abs(px / w - 0.5);
          l *= 1 - 0.45 * Math.exp(-d * d / 0.0008);
        }
        if (!inside) {
          g = base + grain * Math.sin(y * 0.21 + 3 * Math.sin(x * 0.004) + Math.sin(x * 0.013));
          l = Math.max(l, 0.5);
        } else {
          g = 18 + g * 0.9;
        }
        v[i] = (byte) (int) Math.max(0, Math.min(255, g * l));
      }
    }
    photo.put(0, 0, v);
  }

  private static Mat grid(float[] values, int gw, int gh, int step, int w, int h) {
    Mat coarse = new Mat(gh, gw, CvType.CV_32F);
    coarse.put(0, 0, values);
    Mat m = new Mat(2, 3, CvType.CV_64F);
    m.put(0, 0, 1.0 / step, 0, 0, 0, 1.0 / step, 0);
    Mat full = new Mat();
    Imgproc.warpAffine(
        coarse,
        full,
        m,
        new Size(w, h),
        Imgproc.INTER_LINEAR | Imgproc.WARP_INVERSE_MAP,
        Core.BORDER_REPLICATE);
    return full;
  }

  private static Path sibling(Path p, String ending) {
    return p.resolveSibling(p.getFileName().toString().replaceFirst("\\.png$", ending));
  }

  private static ObjectNode scale(JsonNode truth, double f) {
    ObjectNode t = (ObjectNode) truth.deepCopy();
    for (JsonNode s : t.path("pages").path(0).path("systems")) {
      for (JsonNode p : s.path("outline")) {
        ((ArrayNode) p).set(0, p.path(0).asDouble() * f).set(1, p.path(1).asDouble() * f);
      }
    }
    return t;
  }

  private static void write(
      Path out, List<ObjectNode> truths, double sheetW, Warp warp, int turn, int w, int h)
      throws IOException {
    var mapper = BarMapJson.mapper();
    ObjectNode map = mapper.createObjectNode();
    ArrayNode systems = mapper.createArrayNode();
    ArrayNode staves = mapper.createArrayNode();
    for (int k = 0; k < truths.size(); k++) {
      for (JsonNode s : truths.get(k).path("pages").path(0).path("systems")) {
        ArrayNode o = mapper.createArrayNode();
        double[][] c = new double[4][];
        for (int i = 0; i < 4; i++) {
          c[i] =
              new double[] {
                s.path("outline").path(i).path(0).asDouble() + k * sheetW,
                s.path("outline").path(i).path(1).asDouble()
              };
          o.add(point(mapper, turned(warp.apply(c[i][0], c[i][1]), turn, w, h)));
        }
        ObjectNode sys = mapper.createObjectNode();
        sys.put("index", systems.size() + 1);
        sys.set("outline", o);
        sys.put("staffSpace", 10);
        systems.add(sys);
        ArrayNode mid = mapper.createArrayNode();
        for (int i = 0; i <= 40; i++) {
          double f = i / 40.0;
          double x = c[0][0] * (1 - f) + c[1][0] * f;
          double y = ((c[0][1] + c[3][1]) * (1 - f) + (c[1][1] + c[2][1]) * f) / 2;
          mid.add(point(mapper, turned(warp.apply(x, y), turn, w, h)));
        }
        ObjectNode st = mapper.createObjectNode();
        st.set("midline", mid);
        staves.add(st);
      }
    }
    ObjectNode page = mapper.createObjectNode();
    page.set("systems", systems);
    map.set("pages", mapper.createArrayNode().add(page));
    Files.writeString(Path.of(out + ".json"), mapper.writeValueAsString(map));
    ObjectNode signs = mapper.createObjectNode();
    signs.set("staves", staves);
    Files.writeString(Path.of(out + ".signs.json"), mapper.writeValueAsString(signs));
  }

  private static ArrayNode point(tools.jackson.databind.json.JsonMapper mapper, double[] p) {
    return mapper.createArrayNode().add(p[0]).add(p[1]);
  }

  private static double[] turned(double[] p, int turn, int w, int h) {
    return switch (turn) {
      case 1 -> new double[] {h - p[1], p[0]};
      case 2 -> new double[] {w - p[0], h - p[1]};
      case 3 -> new double[] {p[1], w - p[0]};
      default -> p;
    };
  }
}
