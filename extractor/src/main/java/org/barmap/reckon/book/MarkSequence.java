package org.barmap.reckon.book;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Enclosure;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.jspecify.annotations.Nullable;

/**
 * Settles rehearsal marks as a sequence: A, B, C … Z, AA, BB …, or 1, 2, 3 …, starting again at a
 * new musical number.
 *
 * <p>A shortest path over what each mark may say; a mark may also be skipped by the book (I, J, O
 * and Q often are) or be missed by the reader.
 */
public final class MarkSequence {

  private static final BookSettings.MarkOrder SET = ReckonSettings.STANDARD.book().marks();

  private static final int LETTERS = 26;

  /**
   * A settled mark.
   *
   * @param text what it says
   * @param changed true when the best reading of the page said something else
   * @param probability how likely it is, among what it may say
   * @param mark whether it is a mark at all, and no letter of a word
   */
  public record Settled(String text, boolean changed, double probability, boolean mark) {}

  /** A mark on the best way so far: what it says, and the mark before it. */
  private record Node(String text, double cost, @Nullable Node before, int at) {}

  private final List<Sign> marks;
  private final List<Boolean> afterRestart;
  private final double[] kept;
  private final double[] dropped;
  private final List<List<Node>> nodes = new ArrayList<>();

  private MarkSequence(List<Sign> marks, List<Boolean> afterRestart) {
    this.marks = marks;
    this.afterRestart = afterRestart;
    this.kept = new double[marks.size()];
    this.dropped = new double[marks.size()];
    double framed = framedHeight(marks);
    for (int i = 0; i < marks.size(); i++) {
      double odds = odds(marks.get(i), framed);
      kept[i] = -Math.log1p(Math.exp(-odds));
      dropped[i] = -Math.log1p(Math.exp(odds)) + Math.log(SET.noise());
    }
  }

  /**
   * Settles the marks of a book.
   *
   * @param marks in reading order
   * @param afterRestart whether a new musical number began between the mark before and this one
   * @return one entry for each mark
   */
  public static List<Settled> settle(List<Sign> marks, List<Boolean> afterRestart) {
    return new MarkSequence(marks, afterRestart).settle();
  }

  private List<Settled> settle() {
    int n = marks.size();
    for (int i = 0; i < n; i++) {
      List<Node> here = new ArrayList<>();
      for (Reading r : options(marks, i)) {
        here.add(best(i, r));
      }
      nodes.add(here);
    }
    double most = passed(0, n);
    @Nullable Node last = null;
    for (int i = 0; i < n; i++) {
      for (Node node : nodes.get(i)) {
        double cost = node.cost + passed(i + 1, n);
        if (cost > most) {
          most = cost;
          last = node;
        }
      }
    }
    return trace(last);
  }

  /** The best way to a mark that says this, over the marks kept before it or none. */
  private Node best(int i, Reading r) {
    double own = kept[i] + Math.log(r.probability());
    double first = Math.log(isFirst(r.text()) ? SET.follows() : SET.starts());
    Node best = new Node(r.text(), passed(0, i) + own + first, null, i);
    boolean restarted = false;
    for (int j = i - 1; j >= Math.max(0, i - 1 - SET.passed()); j--) {
      restarted |= afterRestart.get(j + 1);
      double between = passed(j + 1, i);
      for (Node before : nodes.get(j)) {
        double cost =
            before.cost + between + own + Math.log(step(before.text, r.text(), restarted));
        if (cost > best.cost) {
          best = new Node(r.text(), cost, before, i);
        }
      }
    }
    return best;
  }

  /** What it costs that none of these is a mark. */
  private double passed(int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += dropped[i];
    }
    return sum;
  }

  /**
   * Marks of a book are mostly drawn alike: where they have frames a bare text is seldom one.
   * Returns how high they are, 0 where they have none; what is as high only has a gap in its frame.
   */
  private static double framedHeight(List<Sign> marks) {
    double[] heights =
        marks.stream()
            .filter(MarkSequence::isFramed)
            .mapToDouble(m -> m.bottom() - m.top())
            .sorted()
            .toArray();
    boolean all = heights.length >= SET.styled() && heights.length >= SET.style() * marks.size();
    return all ? heights[heights.length / 2] : 0;
  }

  private static boolean isFramed(Sign mark) {
    return mark.enclosure().filter(e -> e != Enclosure.NONE).isPresent();
  }

  private static double odds(Sign mark, double framed) {
    if (isFramed(mark)) {
      return SET.framed();
    }
    double own = Math.min(SET.most(), SET.per() * (mark.probability() - SET.even()));
    boolean other = mark.bottom() - mark.top() < SET.unframed() * framed;
    return own - (other ? SET.otherStyle() : 0);
  }

  private List<Settled> trace(@Nullable Node last) {
    Settled[] out = new Settled[marks.size()];
    for (int i = 0; i < out.length; i++) {
      out[i] = new Settled(marks.get(i).text(), false, 0, false);
    }
    for (@Nullable Node node = last; node != null; node = node.before) {
      double total = 0;
      for (Node other : nodes.get(node.at)) {
        total += Math.exp(other.cost - node.cost);
      }
      boolean changed = !node.text.equals(marks.get(node.at).text());
      out[node.at] = new Settled(node.text, changed, 1 / total, true);
    }
    return List.of(out);
  }

  /** What a mark was read as, and what its neighbours would make of it. */
  private static List<Reading> options(List<Sign> marks, int i) {
    List<Reading> out = new ArrayList<>();
    for (Reading r : marks.get(i).readings()) {
      if (!r.text().isBlank()) {
        out.add(new Reading(r.text(), Math.max(SET.unlisted(), r.probability())));
      }
    }
    double listed = out.stream().mapToDouble(Reading::probability).sum();
    double unlisted =
        Math.max(
            SET.unlisted() / SET.leastUnlisted(),
            Math.min(SET.unlisted(), (1 - listed) / SET.unlistedShare()));
    if (i > 0) {
      addIfNew(out, next(marks.get(i - 1).text()), unlisted);
    }
    if (i + 1 < marks.size()) {
      addIfNew(out, previous(marks.get(i + 1).text()), unlisted);
    }
    if (out.isEmpty()) {
      out.add(new Reading("?", 1));
    }
    return out;
  }

  private static void addIfNew(List<Reading> out, String text, double probability) {
    if (!text.isEmpty() && out.stream().noneMatch(r -> isSame(r.text(), text))) {
      out.add(new Reading(text, probability));
    }
  }

  private static double step(String before, String now, boolean restarted) {
    if (restarted && isFirst(now)) {
      return SET.follows();
    }
    if (isSame(now, next(before))) {
      return SET.follows();
    }
    if (isSame(now, next(next(before))) || rises(before, now)) {
      return SET.skips();
    }
    return isFirst(now) ? SET.starts() : SET.anything();
  }

  private static boolean rises(String before, String now) {
    int a = Marks.number(before);
    int b = Marks.number(now);
    return a >= 0 && b > a;
  }

  /** AA and Aa are the same mark in two houses' styles. */
  private static boolean isSame(String a, String b) {
    return a.equals(b) || (a.length() == 2 && a.equalsIgnoreCase(b));
  }

  private static boolean isFirst(String text) {
    return text.equals("A") || text.equals("1") || text.equals("a");
  }

  /** The mark after another, or the empty text: B after A, AA after Z, BB after AA, 8 after 7. */
  public static String next(String mark) {
    return shifted(mark, 1);
  }

  /** The mark before another, or the empty text. */
  static String previous(String mark) {
    return shifted(mark, -1);
  }

  private static String shifted(String mark, int by) {
    int number = Marks.number(mark);
    if (number >= 0 && !Marks.isLettered(mark)) {
      return number + by >= 1 ? Integer.toString(number + by) : "";
    }
    boolean mixed = mark.matches("([A-Z])(?i:\\1)") && Character.isLowerCase(mark.charAt(1));
    if (!mixed && !mark.matches("([A-Z])\\1?|([a-z])\\2?")) {
      return "";
    }
    char first = Character.isUpperCase(mark.charAt(0)) ? 'A' : 'a';
    int index = (mark.length() - 1) * LETTERS + mark.charAt(0) - first + by;
    if (index < 0 || index >= 2 * LETTERS) {
      return "";
    }
    String letter = String.valueOf((char) (first + index % LETTERS));
    return mixed && index >= LETTERS
        ? letter + letter.toLowerCase(java.util.Locale.ROOT)
        : letter.repeat(1 + index / LETTERS);
  }
}
