package org.barmap.sign;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.FloatBuffer;

/** The models shipped with the extractor, and how they are run. */
final class Models {

  /** Threads one network uses. */
  private static final int THREADS = 2;

  private static final OrtEnvironment ENVIRONMENT = OnnxStart.environment();

  private Models() {}

  /** Returns the process's one environment. */
  static OrtEnvironment environment() {
    return ENVIRONMENT;
  }

  static byte[] bytes(String name) {
    try (InputStream in = Models.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException(name + " is missing from the jar");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static OrtSession session(String name) {
    return session(bytes(name), name);
  }

  static OrtSession session(byte[] model, String name) {
    try (OrtSession.SessionOptions options = new OrtSession.SessionOptions()) {
      options.setIntraOpNumThreads(THREADS);
      options.setInterOpNumThreads(1);
      // Threads that spin while waiting would starve the other pages of a book.
      options.addConfigEntry("session.intra_op.allow_spinning", "0");
      return ENVIRONMENT.createSession(model, options);
    } catch (OrtException e) {
      throw new IllegalStateException(name + " can't be loaded: " + e.getMessage(), e);
    }
  }

  /** Returns an output split along its first dimension. */
  static float[][] rows(OrtSession.Result result, String name, int n) {
    OnnxTensor tensor =
        (OnnxTensor)
            result
                .get(name)
                .orElseThrow(() -> new IllegalStateException("the model has no output " + name));
    FloatBuffer values = tensor.getFloatBuffer();
    float[][] rows = new float[n][values.remaining() / n];
    for (float[] row : rows) {
      values.get(row);
    }
    return rows;
  }

  static void close(OrtSession session) {
    try {
      session.close();
    } catch (OrtException e) {
      throw new IllegalStateException("a model can't be closed: " + e.getMessage(), e);
    }
  }
}
