package org.barmap.plan.reference.books;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Unfolds a book of one number with repeats and endings by taking its text apart recursively. */
final class Brackets {

  private final List<String> tokens;
  private int at;

  private Brackets(List<String> tokens) {
    this.tokens = tokens;
  }

  static List<String> unfold(String book) {
    List<String> tokens =
        Arrays.stream(book.split(" "))
            .filter(t -> !t.startsWith("No.") && !t.matches("//?"))
            .toList();
    return new Brackets(tokens).stretch();
  }

  /** The same with one D.C. or D.S. outside all repeats, and no endings. */
  static List<String> unfoldWithJump(String book) {
    List<String> once = new ArrayList<>();
    boolean behind = false;
    String jump = "";
    String target = "";
    String toCoda = "";
    String coda = "";
    String fine = "";
    for (String token : book.split(" ")) {
      once.add(token.startsWith(":|") && !behind ? ":|1" : token);
      behind |= token.matches(".*@d[cs].*");
      jump = token.matches(".*@d[cs].*") ? last(token) : jump;
      target = token.contains("@segno") ? first(token) : target;
      toCoda = token.contains("@tocoda") ? last(token) : toCoda;
      coda = token.contains("@coda") ? first(token) : coda;
      fine = token.contains("@fine") ? last(token) : fine;
    }
    List<String> all = unfold(bare(book));
    List<String> again = unfold(bare(String.join(" ", once)));
    List<String> order = new ArrayList<>(all.subList(0, all.indexOf(jump) + 1));
    int from = target.isEmpty() ? 0 : again.indexOf(target);
    if (!coda.isEmpty()) {
      order.addAll(again.subList(from, again.indexOf(toCoda) + 1));
      order.addAll(all.subList(all.indexOf(coda), all.size()));
    } else {
      int to = fine.isEmpty() ? again.size() : again.indexOf(fine) + 1;
      order.addAll(again.subList(from, to));
    }
    return order;
  }

  private static String bare(String book) {
    return book.replaceAll("@[a-z]+", "");
  }

  private static String first(String token) {
    return bare(token).replaceAll("R(\\d+)\\*\\d+", "$1");
  }

  private static String last(String token) {
    String bare = bare(token);
    if (!bare.startsWith("R")) {
      return bare;
    }
    String[] rest = bare.substring(1).split("\\*");
    return Integer.toString(Integer.parseInt(rest[0]) + Integer.parseInt(rest[1]) - 1);
  }

  /** Everything up to the repeat's end, an ending, or the end of all. */
  private List<String> stretch() {
    List<String> bars = new ArrayList<>();
    while (at < tokens.size() && !tokens.get(at).matches(":\\|\\d*|\\[.*|]")) {
      String token = tokens.get(at++);
      if (token.equals("|:")) {
        bars.addAll(repeat());
      } else if (token.startsWith("R")) {
        String[] rest = token.substring(1).split("\\*");
        int first = Integer.parseInt(rest[0]);
        for (int k = 0; k < Integer.parseInt(rest[1]); k++) {
          bars.add(Integer.toString(first + k));
        }
      } else {
        bars.add(token);
      }
    }
    return bars;
  }

  private List<String> repeat() {
    List<String> body = stretch();
    List<String> all = new ArrayList<>();
    if (tokens.get(at).startsWith(":|")) {
      String times = tokens.get(at++).substring(2);
      for (int k = 0; k < (times.isEmpty() ? 2 : Integer.parseInt(times)); k++) {
        all.addAll(body);
      }
      return all;
    }
    int endings = 0;
    while (at < tokens.size() && tokens.get(at).startsWith("[")) {
      int passes = tokens.get(at++).split(",").length;
      List<String> ending = stretch();
      if (tokens.get(at).equals(":|")) {
        at++;
      }
      at++;
      for (int k = 0; k < passes; k++) {
        all.addAll(body);
        all.addAll(ending);
      }
      endings++;
    }
    if (endings == 1) {
      all.addAll(body);
    }
    return all;
  }
}
