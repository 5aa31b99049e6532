package org.barmap.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.fit.Truth.TrueBar;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Sound;
import tools.jackson.databind.JsonNode;

/**
 * The notes and rests that the reader really reads on the corpus's pages, errors included, as
 * {@code ReadSoundsTest} measured them.
 *
 * @param measured the day
 * @param pages by picture and by system: what is read there, each as bar of the system and share of
 *     the bar's width, n or r for note or rest, and its likely quarter notes or ?
 */
record ReadSounds(String measured, Map<String, Map<String, String>> pages) {

  private static final Pattern SOUND = Pattern.compile("(\\d+)\\.(\\d{2})([nr])([\\d.]+|\\?)");
  private static final ReadSounds MEASURED = Measured.load("sounds.json", ReadSounds.class);

  /** What is read on a page. */
  static Map<String, String> of(Labelled page) {
    Map<String, String> out = new TreeMap<>();
    for (ReadSystem system : page.read().systems()) {
      List<TrueBar> bars = Truth.bars(page.truth(), system);
      StringBuilder text = new StringBuilder();
      for (Sound s : system.sounds()) {
        for (int k = 0; k < bars.size() && s.probability() >= 0.5; k++) {
          double share = (s.at() - bars.get(k).from()) / (bars.get(k).to() - bars.get(k).from());
          if (share >= 0 && share < 0.995) {
            text.append(text.isEmpty() ? "" : " ");
            text.append(String.format(Locale.ROOT, "%.2f%s", k + share, s.note() ? "n" : "r"));
            text.append(s.likely().map(ReadSounds::figures).orElse("?"));
            break;
          }
        }
      }
      if (!bars.isEmpty()) {
        out.put(bars.get(0).bar().path("system").asString(), text.toString());
      }
    }
    return out;
  }

  private static String figures(double quarters) {
    return String.format(Locale.ROOT, "%.4f", quarters).replaceAll("\\.?0+$", "");
  }

  /** What is read on one of a truth's systems, where its bars stand as given. */
  static List<Sound> on(JsonNode truth, JsonNode system, List<double[]> bars) {
    String picture = truth.at("/pages/0/source").asString();
    String read =
        MEASURED
            .pages
            .getOrDefault(picture, Map.of())
            .getOrDefault(system.path("index").asString(), "");
    List<Sound> out = new ArrayList<>();
    for (String one : read.isEmpty() ? new String[0] : read.split(" ")) {
      Matcher m = SOUND.matcher(one);
      if (!m.matches()) {
        throw new IllegalStateException("not a sound: " + one);
      }
      double[] bar = bars.get(Integer.parseInt(m.group(1)));
      double at = bar[0] + (bar[1] - bar[0]) * Integer.parseInt(m.group(2)) / 100;
      Optional<Double> quarters =
          m.group(4).equals("?") ? Optional.empty() : Optional.of(Double.valueOf(m.group(4)));
      out.add(new Sound(at, m.group(3).equals("n"), quarters, quarters, 0.9));
    }
    return out;
  }
}
