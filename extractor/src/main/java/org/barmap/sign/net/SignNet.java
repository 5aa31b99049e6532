package org.barmap.sign.net;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.nio.FloatBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.pixel.WorkStep;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.kind.Sound;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;
import tools.jackson.databind.JsonNode;

/** The sign network: strips in, heat maps out. */
public final class SignNet implements AutoCloseable {

  private static final NetSettings SET = SignSettings.STANDARD.net();

  /** The network takes widths that are multiples of this, pixels. */
  private static final int MULTIPLE = 16;

  private final OrtSession session;
  private final BarlineDecoder lines;
  private final BoxDecoder boxes;
  private final List<SignKind> chartKinds;
  private final BoxDecoder charts;
  private final BoxDecoder under;
  private final PenNet pen = new PenNet();

  /** Loads the model. */
  public SignNet() {
    JsonNode card = BarMapJson.mapper().readTree(Models.bytes("signs.json"));
    List<SignKind> kinds = kinds(card.path("kinds"));
    boxes = new BoxDecoder(kinds, least(kinds, card.path("thresholds")));
    chartKinds = kinds(card.path("charts"));
    charts = new BoxDecoder(chartKinds, least(chartKinds, card.path("chart-thresholds")));
    List<SignKind> underKinds = kinds(card.path("under"));
    under = new BoxDecoder(underKinds, least(underKinds, card.path("under-thresholds")));
    lines = new BarlineDecoder(SET.barlines().least());
    session = Models.session("signs.onnx");
  }

  private static List<SignKind> kinds(JsonNode words) {
    List<SignKind> kinds = new ArrayList<>();
    words.forEach(k -> kinds.add(kind(k.asString(""))));
    return kinds;
  }

  private static double[] least(List<SignKind> kinds, JsonNode thresholds) {
    return kinds.stream()
        .mapToDouble(k -> thresholds.path(k.word()).asDouble(SET.boxes().unlisted()))
        .map(t -> Math.min(SET.boxes().most(), t))
        .toArray();
  }

  private static SignKind kind(String word) {
    return Arrays.stream(SignKind.values())
        .filter(k -> k.word().equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalStateException("signs.json names an unknown kind: " + word));
  }

  /**
   * What was found on a strip.
   *
   * @param under marks and bar numbers that may stand under the staff; none of them is in {@code
   *     signs}
   */
  public record Found(
      List<RawSign> signs,
      List<Sound> sounds,
      ChartHeats charts,
      List<RawSign> under,
      LineHeats lines) {}

  /** What the network saw of barlines on a strip, for {@link #byPen}. */
  public static final class LineHeats {
    private final Heats heats;

    private LineHeats(Heats heats) {
      this.heats = heats;
    }
  }

  /** The same strip, its barlines looked for once more as a pen draws them. */
  public Found byPen(StripImage strip, Found found) {
    Heats seen = found.lines.heats;
    long start = WorkStep.start();
    try (OnnxTensor tensor = tensor(strip, seen.columns() * Heats.STRIDE)) {
      List<RawSign> signs = new ArrayList<>(lines.decode(pen.both(tensor, seen), strip));
      found.signs.stream().filter(s -> s.kind() != SignKind.BARLINE).forEach(signs::add);
      return new Found(signs, found.sounds, found.charts, found.under, found.lines);
    } catch (OrtException e) {
      throw new IllegalStateException("the network for a pen failed: " + e.getMessage(), e);
    } finally {
      WorkStep.SIGNS.done(start);
    }
  }

  private static Heats heats(
      OrtSession.Result result, int width, String along, String heat, String size)
      throws OrtException {
    return new Heats(
        Models.values(result, along),
        Models.values(result, heat),
        Models.values(result, size),
        width / Heats.STRIDE);
  }

  /** Returns what stands on a strip; the network's layers stay in the cache of one core. */
  public Found find(StripImage strip) {
    int width = (strip.width() + MULTIPLE - 1) / MULTIPLE * MULTIPLE;
    long start = WorkStep.start();
    try (OnnxTensor tensor = tensor(strip, width);
        OrtSession.Result result = session.run(Map.of("strip", tensor))) {
      Heats heats = heats(result, width, "lines", "heat", "size");
      WorkStep.SIGNS.done(start);
      start = WorkStep.start();
      List<RawSign> signs = new ArrayList<>(lines.decode(heats, strip));
      signs.addAll(boxes.decode(heats, strip));
      signs = EndingReach.settle(heats, strip, signs);
      List<Sound> sounds = SoundDecoder.decode(Models.values(result, "sounds"), strip.width());
      Heats seen = heats(result, width, "charts_along", "charts", "charts_size");
      ChartHeats chart = new ChartHeats(chartKinds, seen, charts.decode(seen, strip));
      Heats low = heats(result, width, "charts_along", "under", "under_size");
      List<RawSign> beneath = under.decode(low, strip);
      WorkStep.BOXES.done(start);
      Heats along = new Heats(heats.lines(), new float[0], new float[0], heats.columns());
      return new Found(signs, sounds, chart, beneath, new LineHeats(along));
    } catch (OrtException e) {
      throw new IllegalStateException("the sign network failed: " + e.getMessage(), e);
    }
  }

  private static OnnxTensor tensor(StripImage strip, int width) throws OrtException {
    long[] shape = {1, 1, StripImage.HEIGHT, width};
    return OnnxTensor.createTensor(
        Models.environment(), FloatBuffer.wrap(input(strip, width)), shape);
  }

  private static float[] input(StripImage strip, int width) {
    float[] input = new float[width * StripImage.HEIGHT];
    byte[] gray = strip.gray();
    int w = strip.width();
    for (int v = 0; v < StripImage.HEIGHT; v++) {
      for (int u = 0; u < w; u++) {
        input[v * width + u] = (255 - (gray[v * w + u] & 0xff)) / 255f;
      }
    }
    return input;
  }

  @Override
  public void close() {
    pen.close();
    Models.close(session);
  }
}
