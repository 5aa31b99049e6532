package org.barmap.exchange.table;

import java.util.Optional;

/** One cell of a table. */
public sealed interface Cell {

  /** Returns it as CSV says it. */
  String text();

  /** Words; empty for nothing. */
  record Words(String text) implements Cell {}

  /** A whole number. */
  record Whole(int value) implements Cell {
    @Override
    public String text() {
      return Integer.toString(value);
    }
  }

  /** A number with a point: seconds, beats, a share of 1. */
  record Measured(double value) implements Cell {
    @Override
    public String text() {
      return Double.toString(value);
    }
  }

  /** Returns words. */
  static Cell of(String text) {
    return new Words(text);
  }

  /** Returns a whole number. */
  static Cell of(int value) {
    return new Whole(value);
  }

  /** Returns words, or nothing. */
  static Cell words(Optional<String> text) {
    return new Words(text.orElse(""));
  }

  /** Returns a whole number, or nothing. */
  static Cell whole(Optional<Integer> value) {
    return value.<Cell>map(Whole::new).orElseGet(() -> new Words(""));
  }

  /** Returns a number rounded to a tenth, or nothing. */
  static Cell tenths(Optional<Double> value) {
    return value
        .<Cell>map(v -> new Measured(Math.round(v * 10) / 10.0))
        .orElseGet(() -> new Words(""));
  }
}
