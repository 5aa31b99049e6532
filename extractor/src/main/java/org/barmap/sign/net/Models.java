package org.barmap.sign.net;

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

  /**
   * Threads one run of a network uses. What is to be run is handed out to the threads of the common
   * pool instead: two runs side by side finish sooner than one on two threads.
   */
  private static final int THREADS = 1;

  private static final OrtEnvironment ENVIRONMENT = OnnxStart.environment();

  private static final boolean CLIPS = Clipping.happens(ENVIRONMENT, bytes("probe.onnx"));

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
      if (CLIPS) {
        options.addConfigEntry(Clipping.EXACT, "1");
      }
      return ENVIRONMENT.createSession(model, options);
    } catch (OrtException e) {
      throw new IllegalStateException(name + " can't be loaded: " + e.getMessage(), e);
    }
  }

  /** Returns an output, flat. */
  static float[] values(OrtSession.Result result, String name) {
    OnnxTensor tensor =
        (OnnxTensor)
            result
                .get(name)
                .orElseThrow(() -> new IllegalStateException("the model has no output " + name));
    // The buffer is a copy on the heap already.
    FloatBuffer values = tensor.getFloatBuffer();
    if (values.hasArray() && values.arrayOffset() == 0 && values.array().length == values.limit()) {
      return values.array();
    }
    float[] copy = new float[values.remaining()];
    values.get(copy);
    return copy;
  }

  static void close(OrtSession session) {
    try {
      session.close();
    } catch (OrtException e) {
      throw new IllegalStateException("a model can't be closed: " + e.getMessage(), e);
    }
  }
}
