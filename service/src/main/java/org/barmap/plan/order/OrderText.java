package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.piece.BarNames;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/**
 * Writes an order of play in one line: {@code 1-4 (5-6)v 7 24A 8+1 12[1-2] 24/2}.
 *
 * <p>Bars one after the other are runs. An open stretch stands once, in brackets, with {@code v}
 * for a vamp and {@code s} for a safety behind them. Added bars have their label, or are counted
 * from the bar they come after. A bar of which beats are left out has those that are played, in the
 * meter's lower figure. A bar whose number occurs twice has its ending behind a stroke.
 */
public final class OrderText {
  private static final Pattern PLAIN = Pattern.compile("\\d{1,6}");

  private final BarNames names;

  private OrderText(BarNames names) {
    this.names = names;
  }

  /** Returns a number in the order it sounds. */
  public static String of(OrderOfPlay order) {
    return of(order, new BarNames(order.number()));
  }

  /** Returns a number in the order it sounds, its bars called by names that were looked up. */
  static String of(OrderOfPlay order, BarNames names) {
    return of(names, order.steps(), order.open());
  }

  /** Returns steps of a number, with the stretches that are open among them. */
  public static String of(WrittenNumber number, List<PlayedPiece> steps, List<OpenStretch> open) {
    return of(new BarNames(number), steps, open);
  }

  private static String of(BarNames names, List<PlayedPiece> steps, List<OpenStretch> open) {
    OrderText text = new OrderText(names);
    Map<Integer, String> closes = new HashMap<>();
    Set<Integer> opens = new HashSet<>();
    for (OpenStretch stretch : open) {
      for (OpenStretch.Place place : stretch.places()) {
        opens.add(place.from());
        String kind = stretch.kind() == OpenStretch.Kind.VAMP ? ")v" : ")s";
        closes.put(place.from() + place.bars(), kind);
      }
    }
    List<String> bars = new ArrayList<>();
    int at = 0;
    for (PlayedPiece step : steps) {
      Piece piece = step.piece();
      for (int k = 0; k < piece.count(); k++) {
        if (opens.contains(at)) {
          bars.add("(");
        }
        boolean written = piece.inserted().isEmpty();
        bar(piece, written ? text.names.at(piece.slot() + k) : piece.shortName(), bars);
        at++;
        if (closes.containsKey(at)) {
          bars.add(closes.getOrDefault(at, ""));
        }
      }
    }
    return line(bars);
  }

  private static void bar(Piece piece, String name, List<String> bars) {
    if (piece.beatsCut() == 0) {
      bars.add(name);
      return;
    }
    double beats = piece.bar().meter().map(m -> m.beats()).orElse(0);
    double from = 1 + piece.cutStart();
    double to = beats - piece.cutEnd();
    // of beats left out of the middle only how many is kept: those played after them are the last
    double firstPart = piece.cutMiddle() > 0 ? Math.max(from, to - piece.cutMiddle()) : to;
    bars.add(name + "[" + Figures.plain(from) + "-" + Figures.plain(firstPart) + "]");
  }

  /**
   * Returns bars in one line, runs of numbers drawn together.
   *
   * @param bars one text a bar; {@code "("}, {@code ")v"} and {@code ")s"} are brackets
   */
  public static String line(List<String> bars) {
    StringBuilder line = new StringBuilder();
    int i = 0;
    while (i < bars.size()) {
      String first = bars.get(i);
      int last = i;
      while (last + 1 < bars.size() && follows(bars.get(last), bars.get(last + 1))) {
        last++;
      }
      boolean closes = first.startsWith(")");
      boolean opened = line.length() > 0 && line.charAt(line.length() - 1) == '(';
      if (line.length() > 0 && !closes && !opened) {
        line.append(' ');
      }
      line.append(first);
      if (last > i) {
        line.append('-').append(bars.get(last));
      }
      i = last + 1;
    }
    return line.toString();
  }

  private static boolean follows(String bar, String next) {
    return PLAIN.matcher(bar).matches()
        && PLAIN.matcher(next).matches()
        && Integer.parseInt(next) == Integer.parseInt(bar) + 1;
  }
}
