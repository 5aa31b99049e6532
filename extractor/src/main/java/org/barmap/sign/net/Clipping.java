package org.barmap.sign.net;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.nio.FloatBuffer;
import java.util.Arrays;
import java.util.Map;

/**
 * Tells whether this processor clips sums of 8-bit products.
 *
 * <p>Processors without 8-bit dot products add pairs of them in 16 bits, where two of 255 times 127
 * don't fit, and the same page reads differently there. ONNX Runtime can be told to be exact, which
 * takes twice the time of a network on every processor, also on those that are exact without being
 * told. So they are asked: {@code probe.onnx} ({@code training/probe.py}) adds the greatest
 * products there are and gives 1 everywhere where nothing was clipped.
 */
final class Clipping {

  /** The session option that makes sums exact. */
  static final String EXACT = "session.x64quantprecision";

  /** As many channels as the probe has. */
  private static final int CHANNELS = 32;

  /** Rows and columns of ink; more than a kernel works on at once. */
  private static final int SIDE = 24;

  private Clipping() {}

  /** Returns true where sums come out clipped unless the runtime is told to be exact. */
  static boolean happens(OrtEnvironment environment, byte[] probe) {
    float[] ink = new float[CHANNELS * SIDE * SIDE];
    Arrays.fill(ink, 1);
    long[] shape = {1, CHANNELS, SIDE, SIDE};
    try (OrtSession.SessionOptions options = new OrtSession.SessionOptions();
        OrtSession session = open(environment, options, probe);
        OnnxTensor tensor = OnnxTensor.createTensor(environment, FloatBuffer.wrap(ink), shape);
        OrtSession.Result result = session.run(Map.of("ink", tensor))) {
      float[] out = Models.values(result, "out");
      // over the edges lies less ink: the middle of the picture counts
      int middle = SIDE / 2 * SIDE + SIDE / 2;
      for (int c = 0; c < CHANNELS; c++) {
        if (out[c * SIDE * SIDE + middle] < 1) {
          return true;
        }
      }
      return false;
    } catch (OrtException e) {
      throw new IllegalStateException("the probe failed: " + e.getMessage(), e);
    }
  }

  private static OrtSession open(
      OrtEnvironment environment, OrtSession.SessionOptions options, byte[] probe)
      throws OrtException {
    options.setIntraOpNumThreads(1);
    options.setInterOpNumThreads(1);
    return environment.createSession(probe, options);
  }
}
