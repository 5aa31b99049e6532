package org.barmap.sign.net;

import ai.onnxruntime.OrtEnvironment;
import java.util.concurrent.CompletableFuture;

/**
 * Starts ONNX Runtime on a thread with a wide stack.
 *
 * <p>Version 1.29 matches the process's command line with recursive regular expressions while it
 * starts; with a long class path that overflows a usual stack and ends the process without a word.
 * Where the start scripts set {@code ORT_DISABLE_TELEMETRY=1} it does not even try.
 */
final class OnnxStart {

  /** Bytes; only what is touched takes memory. */
  private static final long WIDE_STACK = 512L << 20;

  private OnnxStart() {}

  static OrtEnvironment environment() {
    CompletableFuture<OrtEnvironment> made = new CompletableFuture<>();
    Thread thread = new Thread(null, () -> start(made), "onnx-start", WIDE_STACK);
    thread.setDaemon(true);
    thread.start();
    return made.join();
  }

  private static void start(CompletableFuture<OrtEnvironment> made) {
    try {
      made.complete(OrtEnvironment.getEnvironment());
    } catch (RuntimeException | LinkageError e) {
      made.completeExceptionally(e);
    }
  }
}
