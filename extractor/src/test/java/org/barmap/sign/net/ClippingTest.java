package org.barmap.sign.net;

import static org.assertj.core.api.Assertions.assertThat;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.nio.FloatBuffer;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * On every processor the networks give what they give when ONNX Runtime is told to add exactly (its
 * option {@code session.x64quantprecision}); on one that clips this fails where the probe overlooks
 * it.
 */
class ClippingTest {

  @ParameterizedTest
  @CsvSource({
    "signs, strip, 160, lines",
    "pen, strip, 160, lines",
    "numerals, crop, 32, chars",
    "words, crop, 32, chars"
  })
  void sumsAreExact(String model, String input, int rows, String output) throws OrtException {
    try (OrtSession.SessionOptions options = new OrtSession.SessionOptions()) {
      options.setIntraOpNumThreads(1);
      options.addConfigEntry(Clipping.EXACT, "1");
      byte[] bytes = Models.bytes(model + ".onnx");
      try (OrtSession exact = Models.environment().createSession(bytes, options);
          OrtSession ours = Models.session(model + ".onnx")) {
        assertThat(values(ours, input, rows, output)).isEqualTo(values(exact, input, rows, output));
      }
    }
  }

  /** Half ink, half paper, by lot: the sums of the first layers are as great as they get. */
  private static float[] values(OrtSession session, String input, int rows, String output)
      throws OrtException {
    int width = 320;
    float[] ink = new float[rows * width];
    Random lot = new Random(1);
    for (int i = 0; i < ink.length; i++) {
      ink[i] = lot.nextBoolean() ? 1 : 0;
    }
    long[] shape = {1, 1, rows, width};
    try (OnnxTensor tensor =
            OnnxTensor.createTensor(Models.environment(), FloatBuffer.wrap(ink), shape);
        OrtSession.Result result = session.run(Map.of(input, tensor))) {
      return Models.values(result, output);
    }
  }
}
