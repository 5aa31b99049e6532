package org.barmap.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.sign.ReadSystem;
import tools.jackson.databind.JsonNode;

/** The true bars of a read system, with their sides in its staff spaces. */
final class Truth {

  /**
   * One true bar entry.
   *
   * @param from left side, staff spaces along the staff as read
   * @param to right side
   * @param bar the entry in the truth
   */
  record TrueBar(double from, double to, JsonNode bar) {
    int number() {
      return bar.path("number").asInt();
    }

    int count() {
      return bar.path("count").asInt(1);
    }

    boolean openEnd() {
      return bar.path("endBarline").asString("").equals("none");
    }
  }

  private Truth() {}

  /** The truth's bars on a system, in order; empty where the truth has no such system. */
  static List<TrueBar> bars(JsonNode truth, ReadSystem system) {
    Optional<JsonNode> own = system(truth, system.system().outline(), system.system().staffSpace());
    List<TrueBar> out = new ArrayList<>();
    own.ifPresent(
        s -> {
          for (JsonNode bar : truth.path("bars")) {
            if (bar.path("system").asInt() == s.path("index").asInt()) {
              JsonNode o = bar.path("outline");
              out.add(
                  new TrueBar(along(system, middle(o, 0, 3)), along(system, middle(o, 1, 2)), bar));
            }
          }
        });
    return out;
  }

  private static Optional<JsonNode> system(JsonNode truth, Outline read, double staffSpace) {
    double[] at = {
      (read.topLeft().x() + read.bottomRight().x()) / 2,
      (read.topLeft().y() + read.bottomRight().y()) / 2
    };
    JsonNode best = truth.path("nothing");
    double least = 2.5 * staffSpace;
    for (JsonNode s : truth.at("/pages/0/systems")) {
      double[] left = middle(s.path("outline"), 0, 3);
      double[] right = middle(s.path("outline"), 1, 2);
      double share = (at[0] - left[0]) / Math.max(1, right[0] - left[0]);
      double off = Math.abs(left[1] + share * (right[1] - left[1]) - at[1]);
      if (off < least) {
        least = off;
        best = s;
      }
    }
    return best.isMissingNode() ? Optional.empty() : Optional.of(best);
  }

  private static double[] middle(JsonNode outline, int a, int b) {
    return new double[] {
      (outline.at("/" + a + "/0").asDouble() + outline.at("/" + b + "/0").asDouble()) / 2,
      (outline.at("/" + a + "/1").asDouble() + outline.at("/" + b + "/1").asDouble()) / 2
    };
  }

  /** The place along a staff nearest to a point of the page. */
  private static double along(ReadSystem system, double[] point) {
    double best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (double at = 0; at <= system.length() + 1; at += 0.2) {
      Outline o = system.shape().between(at, at + 0.01);
      double dx = (o.topLeft().x() + o.bottomLeft().x()) / 2 - point[0];
      double dy = (o.topLeft().y() + o.bottomLeft().y()) / 2 - point[1];
      double off = dx * dx + dy * dy / 16;
      if (off < least) {
        least = off;
        best = at;
      }
    }
    return best;
  }
}
