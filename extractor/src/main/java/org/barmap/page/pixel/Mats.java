package org.barmap.page.pixel;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.atomic.AtomicInteger;
import org.opencv.core.Mat;

/**
 * A scope that frees native images when it closes.
 *
 * <p>Native memory is invisible to the garbage collector, so every image is made or kept in a scope
 * and freed with it. {@link #live} counts what is not freed yet; a test holds it at zero.
 */
public final class Mats implements AutoCloseable {

  private static final AtomicInteger LIVE = new AtomicInteger();

  private final Deque<Mat> held = new ArrayDeque<>();

  /** Opens a scope. */
  public Mats() {
    OpenCv.load();
  }

  /** Returns a new empty image that is freed with this scope. */
  public Mat mat() {
    return keep(new Mat());
  }

  /** Takes over an image: it is freed with this scope. */
  public Mat keep(Mat mat) {
    LIVE.incrementAndGet();
    held.push(mat);
    return mat;
  }

  /** Hands an image of this scope to the caller, who must give it to another scope. */
  public Mat release(Mat mat) {
    if (held.removeIf(m -> m == mat)) {
      LIVE.decrementAndGet();
    }
    return mat;
  }

  /** Returns the number of images held by open scopes, over the whole process. */
  public static int live() {
    return LIVE.get();
  }

  @Override
  public void close() {
    while (!held.isEmpty()) {
      held.pop().release();
      LIVE.decrementAndGet();
    }
  }
}
