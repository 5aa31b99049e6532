package org.barmap.fit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.barmap.map.json.BarMapJson;
import org.barmap.sign.hand.HandNet;
import org.barmap.sign.hand.HandWriting;
import org.barmap.sign.hand.HandWriting.Candidate;

/**
 * Fits the network that tells what is by hand (Adam, cross entropy), on every stroke of the pages
 * of some folders. A stroke is by hand when most of its ink is; one that is half print is left out.
 */
final class FitHand {

  private static final int HIDDEN = 12;
  private static final int ROUNDS = 60;
  private static final int BATCH = 64;
  private static final double RATE = 0.003;
  private static final double DECAY = 1e-4;
  private static final double BY_HAND = 0.5;
  private static final double PRINT = 0.15;

  private record Labelled(double[] looks, double byHand) {}

  private FitHand() {}

  static String run(List<Path> folders) throws IOException {
    List<Labelled> all = new ArrayList<>();
    HandPages.each(
        folders,
        (file, page, systems, mask) -> {
          byte[] gray = HandPages.gray(page);
          for (Candidate c : HandWriting.candidates(page, systems)) {
            double share = mask.map(m -> HandPages.share(page, gray, c, m)).orElse(0.0);
            if (share >= BY_HAND || share <= PRINT) {
              all.add(new Labelled(c.looks(), share >= BY_HAND ? 1 : 0));
            }
          }
        });
    HandNet net = fit(all);
    Path file =
        CorpusReadings.HOME
            .resolveSibling("extractor")
            .resolve("src/main/resources/org/barmap/sign/hand/hand.json");
    Files.writeString(file, rounded(net));
    return said(all, net);
  }

  private static String said(List<Labelled> all, HandNet net) {
    StringBuilder out = new StringBuilder();
    long hand = all.stream().filter(l -> l.byHand > 0).count();
    out.append("%d strokes, %d by hand%n".formatted(all.size(), hand));
    for (double least : new double[] {0.3, 0.5, 0.7, 0.9, 0.95}) {
      int right = 0;
      int claimed = 0;
      for (Labelled l : all) {
        if (net.probability(l.looks) >= least) {
          claimed++;
          right += (int) l.byHand;
        }
      }
      out.append(
          String.format(
              Locale.ROOT,
              "from %.2f on: precision %.3f, recall %.3f%n",
              least,
              right / (double) Math.max(1, claimed),
              right / (double) Math.max(1, hand)));
    }
    return out.toString();
  }

  /** Weights with as many figures as matter. */
  private static String rounded(HandNet net) {
    String json = BarMapJson.mapper().writeValueAsString(net);
    return java.util.regex.Pattern.compile("-?\\d+\\.\\d+(E-?\\d+)?")
            .matcher(json)
            .replaceAll(m -> String.format(Locale.ROOT, "%.4f", Double.parseDouble(m.group())))
            .replaceAll("\\s+", "")
        + "\n";
  }

  private static HandNet fit(List<Labelled> all) {
    int n = all.get(0).looks.length;
    double[] mean = new double[n];
    double[] scale = new double[n];
    for (int i = 0; i < n; i++) {
      int k = i;
      mean[i] = all.stream().mapToDouble(l -> l.looks[k]).average().orElse(0);
      double m = mean[i];
      double square =
          all.stream().mapToDouble(l -> (l.looks[k] - m) * (l.looks[k] - m)).average().orElse(1);
      scale[i] = Math.max(1e-3, Math.sqrt(square));
    }
    Random random = new Random(1);
    int size = HIDDEN * (n + 1) + HIDDEN + 1;
    double[] w = new double[size];
    for (int i = 0; i < size; i++) {
      w[i] = random.nextGaussian() / Math.sqrt(n);
    }
    double[] first = new double[size];
    double[] second = new double[size];
    List<Labelled> order = new ArrayList<>(all);
    int step = 0;
    for (int round = 0; round < ROUNDS; round++) {
      Collections.shuffle(order, random);
      double rate = RATE * (1 - round / (double) ROUNDS);
      for (int from = 0; from < order.size(); from += BATCH) {
        double[] slope = new double[size];
        List<Labelled> batch = order.subList(from, Math.min(order.size(), from + BATCH));
        for (Labelled l : batch) {
          slope(l, w, mean, scale, slope);
        }
        step++;
        for (int i = 0; i < size; i++) {
          double g = slope[i] / batch.size() + DECAY * w[i];
          first[i] = 0.9 * first[i] + 0.1 * g;
          second[i] = 0.999 * second[i] + 0.001 * g * g;
          double a = first[i] / (1 - Math.pow(0.9, step));
          double b = second[i] / (1 - Math.pow(0.999, step));
          w[i] -= rate * a / (Math.sqrt(b) + 1e-8);
        }
      }
    }
    return net(w, mean, scale);
  }

  private static HandNet net(double[] w, double[] mean, double[] scale) {
    int n = mean.length;
    double[][] hidden = new double[HIDDEN][];
    for (int h = 0; h < HIDDEN; h++) {
      hidden[h] = java.util.Arrays.copyOfRange(w, h * (n + 1), (h + 1) * (n + 1));
    }
    double[] out = java.util.Arrays.copyOfRange(w, HIDDEN * (n + 1), w.length);
    return new HandNet(mean, scale, hidden, out);
  }

  private static void slope(Labelled l, double[] w, double[] mean, double[] scale, double[] slope) {
    int n = mean.length;
    int outAt = HIDDEN * (n + 1);
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = (l.looks[i] - mean[i]) / scale[i];
    }
    double[] act = new double[HIDDEN];
    double sum = w[outAt + HIDDEN];
    for (int h = 0; h < HIDDEN; h++) {
      double a = w[h * (n + 1) + n];
      for (int i = 0; i < n; i++) {
        a += w[h * (n + 1) + i] * x[i];
      }
      act[h] = Math.tanh(a);
      sum += w[outAt + h] * act[h];
    }
    double error = 1 / (1 + Math.exp(-sum)) - l.byHand;
    slope[outAt + HIDDEN] += error;
    for (int h = 0; h < HIDDEN; h++) {
      slope[outAt + h] += error * act[h];
      double back = error * w[outAt + h] * (1 - act[h] * act[h]);
      for (int i = 0; i < n; i++) {
        slope[h * (n + 1) + i] += back * x[i];
      }
      slope[h * (n + 1) + n] += back;
    }
  }
}
