package org.barmap.plan.cases;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Compares what is expected with what was answered, as the cases' {@code README.md} tells. */
public final class Comparing {

  private static final Set<String> OF_LISTS = Set.of("has", "not", "most", "count");
  private static final Set<String> OF_TEXTS = Set.of("mentions", "silent");
  private static final List<String> TEXTS = List.of("text", "because", "says");
  private static final double NEAR = 0.1;

  private Comparing() {}

  /** Returns what differs, one sentence each; empty when the answer is as expected. */
  public static List<String> differences(JsonNode expected, JsonNode actual) {
    return at("", expected, actual);
  }

  private static List<String> at(String where, JsonNode expected, JsonNode actual) {
    if (actual.isMissingNode()) {
      return List.of(where + ": nothing is said, expected " + expected);
    }
    if (expected.isObject() && actual.isArray()) {
      return list(where, expected, actual);
    }
    if (expected.isObject()) {
      return object(where, expected, actual);
    }
    if (expected.isArray()) {
      return sequence(where, expected, actual);
    }
    return same(expected, actual)
        ? List.of()
        : List.of(where + ": expected " + expected + ", but was " + actual);
  }

  private static List<String> object(String where, JsonNode expected, JsonNode actual) {
    List<String> wrong = new ArrayList<>();
    for (String key : expected.propertyNames()) {
      if (OF_TEXTS.contains(key)) {
        texts(where, key.equals("mentions"), expected.get(key), actual).ifPresent(wrong::add);
      } else {
        wrong.addAll(at(where + "/" + key, expected.get(key), actual.path(key)));
      }
    }
    return wrong;
  }

  private static Optional<String> texts(
      String where, boolean wanted, JsonNode parts, JsonNode actual) {
    String all =
        actual.isObject()
            ? TEXTS.stream().map(t -> actual.path(t).toString()).reduce("", String::concat)
            : actual.toString();
    String text = all.toLowerCase(Locale.ROOT);
    for (JsonNode part : parts) {
      if (text.contains(part.asString().toLowerCase(Locale.ROOT)) != wanted) {
        return Optional.of(
            where + (wanted ? ": does not mention " : ": mentions ") + part + ": " + all);
      }
    }
    return Optional.empty();
  }

  private static List<String> sequence(String where, JsonNode expected, JsonNode actual) {
    if (!actual.isArray() || actual.size() != expected.size()) {
      return List.of(where + ": expected " + expected + ", but was " + actual);
    }
    List<String> wrong = new ArrayList<>();
    for (int i = 0; i < expected.size(); i++) {
      wrong.addAll(at(where + "/" + i, expected.get(i), actual.get(i)));
    }
    return wrong;
  }

  private static List<String> list(String where, JsonNode expected, JsonNode actual) {
    List<String> wrong = new ArrayList<>();
    if (!OF_LISTS.containsAll(expected.propertyNames())) {
      wrong.addAll(texts(where, expected, actual));
    }
    for (JsonNode wanted : expected.path("has")) {
      if (!in(wanted, actual)) {
        wrong.add(where + ": expected among others " + wanted + ", but was " + actual);
      }
    }
    for (JsonNode unwanted : expected.path("not")) {
      if (in(unwanted, actual)) {
        wrong.add(where + ": did not expect " + unwanted + " in " + actual);
      }
    }
    if (expected.has("most") && actual.size() > expected.get("most").asInt()) {
      wrong.add(where + ": expected no more than " + expected.get("most") + ": " + actual);
    }
    if (expected.has("count") && actual.size() != expected.get("count").asInt()) {
      wrong.add(where + ": expected " + expected.get("count") + " entries: " + actual);
    }
    return wrong;
  }

  private static List<String> texts(String where, JsonNode expected, JsonNode actual) {
    return OF_TEXTS.containsAll(expected.propertyNames())
        ? expected.propertyNames().stream()
            .flatMap(k -> texts(where, k.equals("mentions"), expected.get(k), actual).stream())
            .toList()
        : List.of(where + ": expected an object, but was " + actual);
  }

  private static boolean in(JsonNode wanted, JsonNode list) {
    for (JsonNode entry : list) {
      if (at("", wanted, entry).isEmpty()) {
        return true;
      }
    }
    return false;
  }

  private static boolean same(JsonNode expected, JsonNode actual) {
    if (expected.isNumber() && actual.isNumber()) {
      return Math.abs(expected.asDouble() - actual.asDouble()) < NEAR;
    }
    if (expected.isString() && actual.isString()) {
      return sameText(expected.asString(), actual.asString());
    }
    return expected.equals(actual);
  }

  private static boolean sameText(String expected, String actual) {
    if (expected.equals(actual)) {
      return true;
    }
    boolean bars = Arrays.stream(new String[] {expected, actual}).allMatch(BarsInOrder::is);
    return bars && BarsInOrder.spread(expected).equals(BarsInOrder.spread(actual));
  }
}
