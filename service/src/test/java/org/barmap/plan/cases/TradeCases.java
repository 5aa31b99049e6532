package org.barmap.plan.cases;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.map.json.BarMapJson;

/** The trade's cases, one file per class. */
public final class TradeCases {

  /** The classes, each a file of its name. */
  public static final List<String> CLASSES =
      List.of(
          "sides",
          "repeats",
          "open",
          "inforce",
          "links",
          "shared",
          "words",
          "tempo",
          "confidence",
          "instruments",
          "insertions",
          "joins",
          "passes",
          "marks",
          "advice",
          "calls",
          "spoken",
          "runsheet",
          "show",
          "rehearsal",
          "structure",
          "said",
          "pit");

  private TradeCases() {}

  /** Returns every row of every class. */
  public static Stream<TradeCase> all() {
    return CLASSES.stream().flatMap(TradeCases::of);
  }

  /** Returns the rows of one class. */
  public static Stream<TradeCase> of(String name) {
    return text(name + ".jsonl").lines().map(TradeCases::row);
  }

  private static TradeCase row(String line) {
    return BarMapJson.mapper().readValue(line, TradeCase.class);
  }

  private static String text(String file) {
    try (InputStream in = TradeCases.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException(file + " is missing");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
