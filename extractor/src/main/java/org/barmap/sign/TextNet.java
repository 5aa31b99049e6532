package org.barmap.sign;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.nio.FloatBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.barmap.map.BarMapJson;
import org.barmap.page.Step;

/** The reader of numerals, letters and short words: crops in, readings out. */
final class TextNet implements AutoCloseable {
  private static final int BATCH = 8;

  /** The network takes nothing narrower, pixels. */
  private static final int LEAST = 48;

  private final OrtSession session;
  private final BeamSearch search;
  private final int classes;

  /** Opens a reader by the name of its model and of its letters, without their endings. */
  TextNet(String name) {
    String chars =
        BarMapJson.mapper().readTree(Models.bytes(name + ".json")).path("chars").asString("");
    session = Models.session(name + ".onnx");
    // A letter outside the basic plane takes two chars; the search counts classes, not chars.
    int[] points = chars.codePoints().map(c -> Character.isBmpCodePoint(c) ? c : '?').toArray();
    search = new BeamSearch(new String(points, 0, points.length));
    classes = points.length + 1;
  }

  /** One crop with what its text may look like; it is read once for each grammar. */
  record Task(Crop crop, List<Grammar> grammars) {

    Task(Crop crop, Grammar grammar) {
      this(crop, List.of(grammar));
    }
  }

  /** Returns the readings of each task by its first grammar, in the order given. */
  List<List<Reading>> read(List<Task> tasks) {
    return readAll(tasks).stream().map(r -> r.get(0)).toList();
  }

  /** Returns the readings of each task by each of its grammars, in the order given. */
  List<List<List<Reading>>> readAll(List<Task> tasks) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < tasks.size(); i++) {
      order.add(i);
    }
    // Crops of like width share a batch, so that little padding is computed.
    order.sort(Comparator.comparingInt(i -> tasks.get(i).crop().width()));
    List<List<Integer>> batches = new ArrayList<>();
    for (int i = 0; i < order.size(); i += BATCH) {
      batches.add(order.subList(i, Math.min(order.size(), i + BATCH)));
    }
    List<List<List<Reading>>> all =
        new ArrayList<>(java.util.Collections.nCopies(tasks.size(), List.of()));
    List<List<List<List<Reading>>>> read =
        batches.parallelStream().map(b -> run(b.stream().map(tasks::get).toList())).toList();
    for (int b = 0; b < batches.size(); b++) {
      for (int n = 0; n < batches.get(b).size(); n++) {
        all.set(batches.get(b).get(n), read.get(b).get(n));
      }
    }
    return all;
  }

  private List<List<List<Reading>>> run(List<Task> tasks) {
    long start = Step.start();
    int width = tasks.stream().mapToInt(t -> t.crop().width()).max().orElse(8);
    width = Math.max(LEAST, (width + 7) / 8 * 8);
    float[] input = new float[tasks.size() * Crop.HEIGHT * width];
    for (int n = 0; n < tasks.size(); n++) {
      Crop crop = tasks.get(n).crop();
      for (int y = 0; y < Crop.HEIGHT; y++) {
        System.arraycopy(
            crop.ink(), y * crop.width(), input, (n * Crop.HEIGHT + y) * width, crop.width());
      }
    }
    long[] shape = {tasks.size(), 1, Crop.HEIGHT, width};
    try (OnnxTensor tensor =
            OnnxTensor.createTensor(Models.environment(), FloatBuffer.wrap(input), shape);
        OrtSession.Result result = session.run(Map.of("crop", tensor))) {
      float[] logs = Models.values(result, "chars");
      int each = logs.length / tasks.size();
      List<List<List<Reading>>> read = new ArrayList<>();
      for (int n = 0; n < tasks.size(); n++) {
        Task task = tasks.get(n);
        // A narrow crop's letters come out partly over the padding at its right.
        int steps = Math.min(width, Math.max(LEAST, task.crop().width() + 24)) / 4;
        float[] used = Arrays.copyOfRange(logs, n * each, n * each + steps * classes);
        read.add(task.grammars().stream().map(g -> search.read(used, steps, classes, g)).toList());
      }
      Step.NUMERALS.done(start);
      return read;
    } catch (OrtException e) {
      throw new IllegalStateException("a network of letters failed: " + e.getMessage(), e);
    }
  }

  @Override
  public void close() {
    Models.close(session);
  }
}
