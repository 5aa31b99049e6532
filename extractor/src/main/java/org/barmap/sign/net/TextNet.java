package org.barmap.sign.net;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.nio.FloatBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.pixel.Spread;
import org.barmap.page.pixel.WorkStep;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;

/** The reader of numerals, letters and short words: crops in, readings out. */
public final class TextNet implements AutoCloseable {

  private static final NetSettings.Runs SET = SignSettings.STANDARD.net().runs();

  /** Crops of a run are as wide as a multiple of this, pixels. */
  private static final int MULTIPLE = 8;

  /** Pixels a step of the network. */
  private static final int STRIDE = 4;

  private final OrtSession session;
  private final BeamSearch search;
  private final int classes;

  /** Opens a reader by the name of its model and of its letters, without their endings. */
  public TextNet(String name) {
    String chars =
        BarMapJson.mapper().readTree(Models.bytes(name + ".json")).path("chars").asString("");
    session = Models.session(name + ".onnx");
    // A letter outside the basic plane takes two chars; the search counts classes, not chars.
    int[] points = chars.codePoints().map(c -> Character.isBmpCodePoint(c) ? c : '?').toArray();
    search = new BeamSearch(new String(points, 0, points.length));
    classes = points.length + 1;
  }

  /** One crop with what its text may look like; it is read once for each grammar. */
  public record Task(Crop crop, List<Grammar> grammars) {

    /** Takes a crop and what it may say. */
    public Task(Crop crop, Grammar grammar) {
      this(crop, List.of(grammar));
    }
  }

  /** Returns the readings of each task by its first grammar, in the order given. */
  public List<List<Reading>> read(List<Task> tasks) {
    List<List<List<Reading>>> all = new ArrayList<>(Collections.nCopies(tasks.size(), List.of()));
    readAll(runs(tasks, IntStream.range(0, tasks.size()).boxed().toList()), all);
    return all.stream().map(r -> r.get(0)).toList();
  }

  /** Some of all tasks, to be read in one go. */
  public record Run(TextNet net, List<Task> tasks, List<Integer> which) {}

  /** Parts tasks into runs: crops of like width share one, so that little padding is computed. */
  public List<Run> runs(List<Task> tasks, List<Integer> which) {
    List<Integer> order = new ArrayList<>(which);
    order.sort(Comparator.comparingInt((Integer i) -> tasks.get(i).crop().width()).reversed());
    List<Run> runs = new ArrayList<>();
    for (int i = 0; i < order.size(); i += SET.batch()) {
      List<Integer> own = order.subList(i, Math.min(order.size(), i + SET.batch()));
      runs.add(new Run(this, own.stream().map(tasks::get).toList(), own));
    }
    return runs;
  }

  /** Puts the readings of each task by each of its grammars where the task stands among all. */
  public static void readAll(List<Run> runs, List<List<List<Reading>>> all) {
    List<List<List<List<Reading>>>> read =
        Spread.map(runs.size(), i -> runs.get(i).net.run(runs.get(i).tasks));
    for (int r = 0; r < runs.size(); r++) {
      List<Integer> which = runs.get(r).which;
      for (int n = 0; n < which.size(); n++) {
        all.set(which.get(n), read.get(r).get(n));
      }
    }
  }

  private List<List<List<Reading>>> run(List<Task> tasks) {
    long start = WorkStep.start();
    int width = tasks.stream().mapToInt(t -> t.crop().width()).max().orElse(MULTIPLE);
    width = Math.max(SET.narrowest(), (width + MULTIPLE - 1) / MULTIPLE * MULTIPLE);
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
        int steps =
            Math.min(width, Math.max(SET.narrowest(), task.crop().width() + SET.padding()))
                / STRIDE;
        float[] used = Arrays.copyOfRange(logs, n * each, n * each + steps * classes);
        read.add(task.grammars().stream().map(g -> search.read(used, steps, classes, g)).toList());
      }
      WorkStep.NUMERALS.done(start);
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
