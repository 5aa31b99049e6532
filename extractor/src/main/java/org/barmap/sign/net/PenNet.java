package org.barmap.sign.net;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.util.Map;
import java.util.Optional;

/**
 * The network for barlines drawn by a pen; opened when the first page written by hand comes, since
 * most books have none.
 */
final class PenNet implements AutoCloseable {

  private final Object opening = new Object();
  private Optional<OrtSession> session = Optional.empty();

  private OrtSession session() {
    synchronized (opening) {
      if (session.isEmpty()) {
        session = Optional.of(Models.session("pen.onnx"));
      }
      return session.get();
    }
  }

  /**
   * Looks at a strip once more.
   *
   * @param tensor the strip as the sign network took it
   * @param seen what that one saw
   * @return what both see: the mean of the logarithms of their odds, and of the reach of endings
   *     what was seen before
   */
  Heats both(OnnxTensor tensor, Heats seen) throws OrtException {
    try (OrtSession.Result result = session().run(Map.of("strip", tensor))) {
      float[] drawn = Models.values(result, "lines");
      float[] lines = seen.lines().clone();
      for (int i = 0; i < drawn.length; i++) {
        lines[i] = (float) mean(lines[i], drawn[i]);
      }
      return new Heats(lines, seen.heat(), seen.size(), seen.columns());
    }
  }

  /** The probability whose odds are the geometric mean of those of two. */
  static double mean(double a, double b) {
    double yes = Math.sqrt(a * b);
    double no = Math.sqrt((1 - a) * (1 - b));
    return yes + no > 0 ? yes / (yes + no) : (a + b) / 2;
  }

  @Override
  public void close() {
    synchronized (opening) {
      session.ifPresent(Models::close);
      session = Optional.empty();
    }
  }
}
