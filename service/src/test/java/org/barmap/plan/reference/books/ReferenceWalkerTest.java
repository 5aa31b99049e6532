package org.barmap.plan.reference.books;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.ReferenceWalker;
import org.barmap.plan.reference.Walked;
import org.barmap.plan.reference.Walked.OfNumber;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.Walked.Sounding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The walker against small books worked out by hand, each with its source, in {@code cases.txt};
 * they were written down before the walker was.
 */
class ReferenceWalkerTest {

  static Stream<SmallBook> cases() {
    return SmallBook.all().stream();
  }

  private static Walked walk(SmallBook given) {
    RandomBook book = given.book();
    return ReferenceWalker.walk(book.map(), book.json(), book.repeatsAfterJump());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void walksAsWorkedOutByHand(SmallBook given) {
    Walked walked = walk(given);
    assertThat(given.all("source")).as("every case has a source").hasSize(1);
    assertThat(asked(walked)).isEqualTo(new java.util.TreeSet<>(given.all("asks")));
    checkOrders(given, walked);
    checkReadings(given, walked);
    given.all("at").forEach(at -> checkState(at, walked));
  }

  private static Set<String> asked(Walked walked) {
    Set<String> keys = new java.util.TreeSet<>();
    walked.asked().forEach(a -> keys.add(a.key()));
    walked.numbers().forEach(n -> n.asked().forEach(a -> keys.add(a.key())));
    return keys;
  }

  private static void checkOrders(SmallBook given, Walked walked) {
    if (given.all("order").isEmpty() && given.all("tacet").isEmpty()) {
      return;
    }
    List<String> expected = new ArrayList<>();
    for (SmallBook.Line line : given.lines()) {
      if (Set.of("order", "tacet", "out").contains(line.key())) {
        expected.add(line.key().equals("order") ? plain(line.value()) : line.key());
      }
    }
    List<String> found = new ArrayList<>();
    for (OfNumber number : walked.numbers()) {
      boolean played = number.playing() == Playing.PLAYED;
      found.add(played ? says(number.order()) : number.playing() == Playing.OUT ? "out" : "tacet");
    }
    assertThat(found).isEqualTo(expected);
    for (int k = 0; k < given.all("order").size(); k++) {
      if (given.all("order").get(k).matches(".*\\d\\.\\d.*")) {
        checkPasses(given.all("order").get(k), walked.numbers().get(k).order());
      }
    }
    Set<String> open =
        walked.numbers().stream()
            .flatMap(n -> n.open().stream())
            .map(Walked.Open::says)
            .collect(Collectors.toSet());
    assertThat(open).isEqualTo(Set.copyOf(given.all("open")));
  }

  /** Writes ranges out and leaves passes away. */
  private static String plain(String order) {
    List<String> bars = new ArrayList<>();
    for (String token : order.strip().split("\\s+")) {
      if (token.matches("\\d+-\\d+")) {
        int from = Integer.parseInt(token.substring(0, token.indexOf('-')));
        int to = Integer.parseInt(token.substring(token.indexOf('-') + 1));
        for (int bar = from; bar <= to; bar++) {
          bars.add(Integer.toString(bar));
        }
      } else {
        bars.add(token.replaceFirst("\\.\\d+$", ""));
      }
    }
    return String.join(" ", bars);
  }

  private static void checkPasses(String order, List<Sounding> found) {
    String[] tokens = order.strip().split("\\s+");
    for (int k = 0; k < tokens.length; k++) {
      if (tokens[k].contains(".")) {
        assertThat(found.get(k).name() + "." + found.get(k).pass()).isEqualTo(tokens[k]);
      }
    }
  }

  private static String says(List<Sounding> order) {
    return order.stream().map(Sounding::says).collect(Collectors.joining(" "));
  }

  private static void checkReadings(SmallBook given, Walked walked) {
    Set<String> readings =
        walked.numbers().stream()
            .flatMap(n -> n.readings().stream())
            .map(r -> says(r.order()))
            .collect(Collectors.toSet());
    for (String reading : given.all("reading")) {
      assertThat(readings).contains(plain(reading));
    }
  }

  /** Reads "No.2 5'2 tempo=? bow=pizz." and compares. */
  private static void checkState(String line, Walked walked) {
    String[] words = line.split(" (?=No\\.|[a-z]+=)|(?<=^No\\.\\S{1,9}) ");
    List<String> parts = new ArrayList<>(Arrays.asList(words));
    String label = parts.get(0).startsWith("No.") ? parts.remove(0).substring(3) : "1";
    String[] bar = parts.remove(0).split("'");
    int time = bar.length > 1 ? Integer.parseInt(bar[1]) : 1;
    OfNumber number =
        walked.numbers().stream().filter(n -> n.label().equals(label)).findFirst().orElseThrow();
    Optional<Sounding> found =
        number.order().stream()
            .filter(s -> s.name().equals(bar[0]) && s.time() == time)
            .findFirst();
    assertThat(found).as(line).isPresent();
    for (String part : parts) {
      Aspect aspect =
          Aspect.valueOf(part.substring(0, part.indexOf('=')).toUpperCase(java.util.Locale.ROOT));
      Set<String> expected = Set.of(part.substring(part.indexOf('=') + 1).split(","));
      assertThat(found.get().state().get(aspect)).as(line + ", " + aspect).isEqualTo(expected);
    }
  }

  @Test
  void atLeastSixtyCases() {
    assertThat(cases().map(SmallBook::toString).collect(Collectors.toSet()))
        .hasSize((int) cases().count())
        .hasSizeGreaterThan(60);
  }
}
