package org.barmap.sign;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.nio.FloatBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.barmap.map.BarMapJson;
import org.barmap.page.Step;
import tools.jackson.databind.JsonNode;

/** The sign network: strips in, heat maps out. */
final class SignNet implements AutoCloseable {

  /** Strips run through the network together; more would only cost memory. */
  private static final int BATCH = 4;

  private final OrtSession session;
  private final LineDecoder lines;
  private final BoxDecoder boxes;

  SignNet() {
    JsonNode card = BarMapJson.mapper().readTree(Models.bytes("signs.json"));
    List<SignKind> kinds = new ArrayList<>();
    card.path("kinds").forEach(k -> kinds.add(kind(k.asString(""))));
    JsonNode thresholds = card.path("thresholds");
    double[] least = new double[kinds.size()];
    for (int i = 0; i < least.length; i++) {
      least[i] = Math.min(Decoding.MOST, thresholds.path(kinds.get(i).word()).asDouble(0.4));
    }
    lines = new LineDecoder(Decoding.LEAST_BARLINE);
    boxes = new BoxDecoder(kinds, least);
    session = Models.session("signs.onnx");
  }

  private static SignKind kind(String word) {
    return Arrays.stream(SignKind.values())
        .filter(k -> k.word().equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalStateException("signs.json names an unknown kind: " + word));
  }

  /** Returns the signs of each strip, in the order given. */
  List<List<RawSign>> find(List<? extends StripImage> strips) {
    List<List<RawSign>> all = new ArrayList<>();
    for (int i = 0; i < strips.size(); i += BATCH) {
      all.addAll(run(strips.subList(i, Math.min(strips.size(), i + BATCH))));
    }
    return all;
  }

  private List<List<RawSign>> run(List<? extends StripImage> strips) {
    long start = Step.start();
    int width = strips.stream().mapToInt(StripImage::width).max().orElse(16);
    width = (width + 15) / 16 * 16;
    int plane = width * StripImage.HEIGHT;
    float[] input = new float[strips.size() * plane];
    for (int n = 0; n < strips.size(); n++) {
      fill(input, n * plane, width, strips.get(n));
    }
    long[] shape = {strips.size(), 1, StripImage.HEIGHT, width};
    try (OnnxTensor tensor =
            OnnxTensor.createTensor(Models.environment(), FloatBuffer.wrap(input), shape);
        OrtSession.Result result = session.run(Map.of("strip", tensor))) {
      float[][] lineHeat = Models.rows(result, "lines", strips.size());
      float[][] boxHeat = Models.rows(result, "heat", strips.size());
      float[][] size = Models.rows(result, "size", strips.size());
      Step.SIGNS.done(start);
      start = Step.start();
      List<List<RawSign>> found = new ArrayList<>();
      for (int n = 0; n < strips.size(); n++) {
        int columns = width / 4;
        Heats heats =
            new Heats(
                split(lineHeat[n], width / 2),
                split(boxHeat[n], Heats.ROWS * columns),
                split(size[n], Heats.ROWS * columns),
                columns);
        List<RawSign> signs = new ArrayList<>(lines.decode(heats, strips.get(n)));
        signs.addAll(boxes.decode(heats, strips.get(n)));
        found.add(signs);
      }
      Step.BOXES.done(start);
      return found;
    } catch (OrtException e) {
      throw new IllegalStateException("the sign network failed: " + e.getMessage(), e);
    }
  }

  private static void fill(float[] input, int at, int width, StripImage strip) {
    byte[] gray = strip.gray();
    int w = strip.width();
    for (int v = 0; v < StripImage.HEIGHT; v++) {
      for (int u = 0; u < w; u++) {
        input[at + v * width + u] = (255 - (gray[v * w + u] & 0xff)) / 255f;
      }
    }
  }

  private static float[][] split(float[] flat, int length) {
    float[][] rows = new float[flat.length / length][];
    for (int i = 0; i < rows.length; i++) {
      rows[i] = Arrays.copyOfRange(flat, i * length, (i + 1) * length);
    }
    return rows;
  }

  @Override
  public void close() {
    Models.close(session);
  }
}
