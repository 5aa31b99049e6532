package org.barmap.plan.change.kind;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** All kinds of change, for tests that must miss none. */
public final class Kinds {
  private static final String EXAMPLES =
      """
      {"number":"1","kind":"cut","first":"2","last":"3"}
      {"number":"1","kind":"restore","first":"3","last":"3"}
      {"number":"1","kind":"vamp","first":"5","last":"6","leave":"any-time"}
      {"number":"1","kind":"safety","first":"12","last":"12"}
      {"number":"1","kind":"play","first":"13","last":"14","times":3}
      {"number":"1","kind":"insert","after":"14","bars":2,"label":"14A"}
      {"number":"2","kind":"tacet"}
      {"number":"3","kind":"cut-number"}
      {"kind":"order","numbers":["1","3","2"]}
      {"number":"1","kind":"tempo","first":"A","beat":"1/4","perMinute":90}
      {"number":"1","kind":"tempo-word","first":"A","text":"a little faster"}
      {"number":"1","kind":"without","first":"20","sign":"hold"}
      {"number":"1","kind":"key","first":"16","fifths":-3}
      {"number":"1","kind":"beats","first":"16","last":"17","beats":2}
      {"number":"1","kind":"instrument","first":"17","to":"electric bass"}
      {"number":"1","kind":"remind","first":"18","what":"watch"}
      {"number":"1","kind":"link","link":"attacca"}
      {"number":"1","kind":"only","first":"18","last":"19","pass":"2"}
      {"number":"1","kind":"not","first":"19","last":"20"}
      {"number":"1","kind":"hold","first":"20"}
      {"number":"1","kind":"gp","after":"16"}
      {"number":"1","kind":"rit","first":"18","last":"20"}
      {"number":"1","kind":"accel","first":"12","last":"13"}
      {"number":"1","kind":"a-tempo","first":"14"}
      {"number":"1","kind":"meter","first":"19","last":"19","meter":"3/4"}
      {"number":"1","kind":"transpose","semitones":2}
      {"number":"1","kind":"track"}
      {"number":"1","kind":"jump","from":"20","to":"19","times":1}
      {"number":"1","kind":"repeats-after-jump"}
      {"number":"1","kind":"note","first":"2","text":"loud clock"}
      """;

  private Kinds() {}

  /**
   * Returns a change of every kind by the word of its kind, without an id: for a book that has bars
   * 2 to 20 and mark A in No. 1, and Nos. 2 and 3.
   */
  public static Map<String, String> examples() {
    Map<String, String> examples = new LinkedHashMap<>();
    Matcher kind = Pattern.compile("(?m)^.*\"kind\":\"([^\"]+)\".*$").matcher(EXAMPLES);
    while (kind.find()) {
      examples.put(kind.group(1), kind.group());
    }
    return examples;
  }

  /** Returns their records. */
  public static Stream<Class<?>> all() {
    return under(ShowChange.class);
  }

  private static Stream<Class<?>> under(Class<?> type) {
    return type.isSealed()
        ? Arrays.stream(type.getPermittedSubclasses()).flatMap(Kinds::under)
        : Stream.of(type);
  }
}
