package org.barmap.plan.reference.books;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a director who knows the book would say of its bars. Source: common practice: one cuts,
 * counts and holds open whole repeats or bars inside one, says beats of bars that are shown as they
 * are written, adds bars where no sign stands, and says one thing of each bar.
 */
final class Sense {

  /** One single bar: what was drawn, whether it ends its entry, whether its beats are plain. */
  private record Single(Drawn drawn, boolean last, boolean plainBeats) {}

  private static final Pattern METER = Pattern.compile("<(\\d+)/(\\d+)>");

  private final List<Single> bars = new ArrayList<>();
  private final boolean jumps;
  private final BitSet used = new BitSet();

  Sense(List<Drawn> drawn) {
    boolean plain = false;
    for (Drawn bar : drawn) {
      Matcher meter = METER.matcher(bar.more);
      if (meter.find()) {
        plain = Integer.parseInt(meter.group(2)) <= 4 && Integer.parseInt(meter.group(1)) <= 5;
      }
      plain &= !bar.more.contains("{in_");
      int count = Math.max(1, bar.count);
      for (int k = 0; k < count; k++) {
        bars.add(new Single(bar, k == count - 1, plain));
      }
    }
    jumps = drawn.stream().anyMatch(d -> d.more.matches(".*@d[cs].*"));
  }

  /** Bars of which something has been said. */
  void said(int from, int to) {
    used.set(from, to + 1);
  }

  boolean cut(int from, int to) {
    return free(from, to) && (inside(from, to) || groups(from, to));
  }

  boolean beats(int from, int to) {
    boolean plain = true;
    for (int at = from; at <= to; at++) {
      plain &= bars.get(at).plainBeats();
    }
    return plain && free(from, to) && inside(from, to);
  }

  boolean meter(int from, int to) {
    return used.get(from, to + 1).isEmpty();
  }

  boolean open(int from, int to) {
    return free(from, to) && block(from) == block(to) && unheld(from);
  }

  boolean play(int from, int to) {
    boolean repeat = block(from) == block(to) && wholeGroup(from, to) && !drawn(from).top;
    boolean apart = block(from) == block(to) && drawn(from).top && !jumps;
    return free(from, to) && unheld(from) && (repeat || apart);
  }

  /** Bars that come in each pass of one repeat. */
  boolean pass(int from, int to) {
    boolean body = drawn(from).ending.isEmpty() && !drawn(from).top;
    return body && !jumps && free(from, to) && inside(from, to);
  }

  boolean insert(int after) {
    boolean inBlock = after + 1 >= bars.size() || block(after) == block(after + 1);
    return bars.get(after).last() && free(after, after) && inBlock && drawn(after).top;
  }

  /** No sign stands there, and nothing is said of them. */
  private boolean free(int from, int to) {
    boolean free = used.get(from, to + 1).isEmpty();
    for (int at = from; at <= to; at++) {
      free &= drawn(at).more.indexOf('@') < 0 && !drawn(at).more.matches(".*x\\d.*");
    }
    return free;
  }

  /** Bars of one stretch without signs, and no sign of a repeat goes with them. */
  private boolean inside(int from, int to) {
    boolean starts = from == 0 || block(from - 1) != block(from);
    boolean ends = to == bars.size() - 1 || block(to + 1) != block(to);
    return block(from) == block(to) && (drawn(from).top || !(starts || ends));
  }

  /** From where no repeat is, or one begins, to where none is, or it ends. */
  private boolean groups(int from, int to) {
    boolean starts = drawn(from).top || from == 0 || group(from - 1) != group(from);
    boolean ends = drawn(to).top || to == bars.size() - 1 || group(to + 1) != group(to);
    return starts && ends;
  }

  private boolean wholeGroup(int from, int to) {
    boolean starts = from == 0 || group(from - 1) != group(from);
    boolean ends = to == bars.size() - 1 || group(to + 1) != group(to);
    return starts && ends && group(from) == group(to);
  }

  /** No VAMP or safety is printed over the repeat. */
  private boolean unheld(int from) {
    return drawn(from).top
        || bars.stream()
            .filter(b -> b.drawn().group == group(from))
            .noneMatch(b -> b.drawn().more.matches(".*\\{(VAMP|safety)}.*"));
  }

  private Drawn drawn(int at) {
    return bars.get(at).drawn();
  }

  private int block(int at) {
    return drawn(at).block;
  }

  private int group(int at) {
    return drawn(at).group;
  }

  /**
   * Numbers the stretches between signs of repeats and endings, and the repeats as wholes.
   *
   * @param places where among the tokens each of the drawn bars stands
   */
  static void number(List<String> tokens, List<Drawn> drawn, List<Integer> places) {
    int block = 0;
    int group = 0;
    int depth = 0;
    boolean inEnding = false;
    for (int k = 0; k < tokens.size(); k++) {
      String token = tokens.get(k);
      int bar = places.indexOf(k);
      if (bar >= 0) {
        drawn.get(bar).block = block;
        drawn.get(bar).group = group;
        continue;
      }
      if (token.startsWith("/")) {
        continue;
      }
      block++;
      boolean another = k + 1 < tokens.size() && tokens.get(k + 1).startsWith("[");
      boolean closes = (token.equals("]") && !another) || (token.startsWith(":|") && !inEnding);
      if (token.startsWith("[") || token.equals("]")) {
        inEnding = token.startsWith("[");
      }
      if (token.equals("|:")) {
        group += depth == 0 ? 1 : 0;
        depth++;
      } else if (closes) {
        depth = Math.max(0, depth - 1);
        group += depth == 0 ? 1 : 0;
      }
    }
  }
}
