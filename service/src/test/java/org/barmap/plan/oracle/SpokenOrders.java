package org.barmap.plan.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Orders as they are given in a rehearsal, put together at random from what is said there (common
 * practice): one order in several ways, with the number in front of it or behind it, figures as
 * figures or in words.
 */
final class SpokenOrders {
  static final String BOOK =
      "#3'Herring Row' 4/4 k-1 '♩ = 112' m8 @A m16 @B m8 @C m10 @D m14 |]"
          + " #4'The Net' 3/4 k+2 '♩ = 156' m8 @A m16 @B m8 |] #5'Lantern' 4/4 '♩ = 72' m20 |]";

  /** Said before an order; nothing changes by it. */
  static final List<String> BEFORE =
      List.of(
          "OK so, ",
          "Everyone, ",
          "Right, ",
          "Um, ",
          "Folks, ",
          "So ",
          "OK, ",
          "Oh, and ",
          "Listen, ",
          "Good news, ",
          "One more thing: ",
          "Well, ",
          "Tell you what, ");

  /** Said behind an order; nothing changes by it. */
  static final List<String> BEHIND =
      List.of(
          ", please",
          " please",
          ", thanks",
          ", everyone",
          ", would you",
          ", OK",
          ", if you would",
          " from now on",
          ", all right",
          ", shall we");

  private static final List<String> UNITS =
      List.of(
          ("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen"
                  + " fifteen sixteen seventeen eighteen nineteen")
              .split(" "));
  private static final List<String> TENS = List.of("twenty", "thirty", "forty", "fifty");

  /** Ways to order one thing; a, b are its bars, y before them, z behind them, N is a number. */
  private static final List<List<String>> WAYS =
      List.of(
          List.of(
              "cut a to b",
              "we're cutting a to b",
              "let's lose a to b",
              "a to b are out",
              "bars a to b are cut",
              "take out a to b",
              "skip bars a through b",
              "from the end of y go to z",
              "after y go straight to z",
              "I'd like to cut a to b",
              "we're going to lose a to b"),
          List.of(
              "vamp a to b",
              "we'll vamp a to b",
              "loop a to b",
              "a to b are a vamp",
              "let's vamp bars a to b",
              "keep a to b going round and round"),
          List.of(
              "play a to b twice",
              "a to b twice",
              "let's do a to b twice",
              "we'll take a to b two times",
              "we do a to b twice"),
          List.of("safety a to b", "a to b are a safety", "make a to b a safety"),
          List.of(
              "bass tacet a to b",
              "bass, don't play a to b",
              "basses, sit out a to b",
              "you're tacet from a to b",
              "bass, lay out from a to b"),
          List.of("hold bar a", "fermata on bar a", "there's a fermata on bar a", "pause on bar a"),
          List.of(
              "add two bars of rest after a",
              "insert two bars of rest after a",
              "we need two extra bars of rest after a"),
          List.of("tempo ninety-six at a", "quarter equals ninety-six at a"),
          List.of("pizz at a", "pizz from bar a", "let's have pizz from a"),
          List.of("back to the bow at a", "arco at a", "arco from bar a"));

  /** What says that it is not done. */
  static final List<List<String>> NEGATED =
      List.of(
          List.of(
              "don't cut a to b",
              "we're not cutting a to b",
              "a to b are not cut",
              "we don't skip a to b any more",
              "never cut a to b"),
          List.of("don't vamp a to b", "no vamp at a to b", "we're not vamping a to b any more"),
          List.of("don't repeat a to b", "don't play a to b twice", "we're not doing a to b twice"),
          List.of("no safety at a to b", "a to b are not a safety"),
          List.of("you're not tacet from a to b", "don't lay out a to b"),
          List.of("no fermata on bar a", "don't hold bar a", "we don't pause on bar a"),
          List.of("don't add two bars of rest after a", "no extra bars after a"),
          List.of("not tempo ninety-six at a", "don't take ninety-six at a"),
          List.of("no pizz at a", "don't play pizz from a"),
          List.of("no arco at a", "not arco at a"));

  private final Random random;

  SpokenOrders(long seed) {
    this.random = new Random(seed);
  }

  /** The same order in all its ways. */
  record Order(int kind, List<String> ways, List<String> not) {}

  Order next() {
    int kind = random.nextInt(WAYS.size());
    int a = 9 + random.nextInt(30);
    int b = a + 1 + random.nextInt(6);
    boolean words = random.nextBoolean();
    return new Order(
        kind,
        WAYS.get(kind).stream().map(w -> said(w, a, b, words)).toList(),
        NEGATED.get(kind).stream().map(w -> said(w, a, b, words)).toList());
  }

  /** An order about a number that is named somewhere. */
  String about(String order) {
    String low = order.substring(0, 1).toLowerCase(java.util.Locale.ROOT) + order.substring(1);
    return switch (random.nextInt(6)) {
      case 0 -> "No. 3: " + order;
      case 1 -> "In number three, " + low;
      case 2 -> "Number three: " + low;
      case 3 -> order + " in number three";
      case 4 -> "In three, " + low;
      default -> "In 'Herring Row', " + low;
    };
  }

  String before() {
    return BEFORE.get(random.nextInt(BEFORE.size()));
  }

  String behind() {
    return BEHIND.get(random.nextInt(BEHIND.size()));
  }

  /** A sentence with a word in it that nobody knows, at any place behind its first word. */
  String disturbed(String sentence, String word) {
    List<String> words = new ArrayList<>(List.of(sentence.split(" ")));
    words.add(1 + random.nextInt(words.size()), word);
    return String.join(" ", words);
  }

  private static String said(String way, int a, int b, boolean words) {
    return way.replaceAll("\\ba(?= to b\\b| through b\\b|$)", figure(a, words))
        .replaceAll("\\bb\\b", figure(b, words))
        .replaceAll("\\by\\b", figure(a - 1, words))
        .replaceAll("\\bz\\b", figure(b + 1, words));
  }

  private static String figure(int n, boolean words) {
    if (!words) {
      return Integer.toString(n);
    }
    return n < UNITS.size()
        ? UNITS.get(n)
        : TENS.get(n / 10 - 2) + (n % 10 == 0 ? "" : "-" + UNITS.get(n % 10));
  }
}
