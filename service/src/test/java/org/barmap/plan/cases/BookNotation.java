package org.barmap.plan.cases;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Barline;
import org.barmap.map.Enclosure;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.map.Origin;
import org.barmap.map.Placement;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;

/**
 * Reads the compact notation of books in the trade's cases; {@code README.md} beside the cases is
 * its definition.
 */
public final class BookNotation {

  private static final Pattern TOKEN = Pattern.compile("(?:[^\\s']|'(?:[^']|'')*')+");
  private static final Pattern NUMBER = Pattern.compile("#([^'!]+)('(?:[^']|'')*')?(!)?");
  private static final Pattern WORDS = Pattern.compile("(_?)'((?:[^']|'')*)'");
  private static final Pattern METER = Pattern.compile("(~?)(\\d+)/(\\d+)");
  private static final Pattern KEY = Pattern.compile("k([+-][1-7]|0)");
  private static final Pattern MARK = Pattern.compile("@(?:\\((.+)\\)|-(.+)|([^(-].*))");
  private static final Pattern ENDING = Pattern.compile("\\[(\\d+(?:,\\d+)*)");
  private static final Pattern PAGE = Pattern.compile("//(?:\\{(.*)\\})?");
  private static final Pattern BARS =
      Pattern.compile("([mrR%])(\\d*)(?:<([\\d.]+))?(?:>([\\d.]+))?(?:\\?(.+))?");
  private static final Map<String, Navigation> BEFORE =
      Map.of("$segno", Navigation.SEGNO, "$coda", Navigation.CODA);
  private static final Map<String, Navigation> AFTER =
      Map.of(
          "$fine", Navigation.FINE,
          "$dc", Navigation.DA_CAPO,
          "$ds", Navigation.DAL_SEGNO,
          "$to-coda", Navigation.TO_CODA,
          "$fermata", Navigation.FERMATA,
          "$caesura", Navigation.CAESURA);
  private static final Map<String, Barline> LINES =
      Map.of(
          "|", Barline.SINGLE,
          "||", Barline.DOUBLE,
          "|]", Barline.FINAL,
          ":|", Barline.REPEAT_END,
          ":|:", Barline.REPEAT_BOTH,
          "¦", Barline.DASHED);

  private BookNotation() {}

  /**
   * Reads a book.
   *
   * @throws IllegalArgumentException naming the token that is not understood
   */
  public static CaseBook read(String notation) {
    BookSketch sketch = new BookSketch();
    Matcher tokens = TOKEN.matcher(notation);
    while (tokens.find()) {
      String token = tokens.group();
      if (!(structure(sketch, token) || sign(sketch, token) || bars(sketch, token))) {
        throw new IllegalArgumentException("not understood: " + token + " in " + notation);
      }
    }
    return sketch.book();
  }

  private static boolean structure(BookSketch sketch, String token) {
    Matcher page = PAGE.matcher(token);
    Matcher number = NUMBER.matcher(token);
    if (token.equals("/")) {
      sketch.line();
    } else if (page.matches()) {
      sketch.page(facts(Optional.ofNullable(page.group(1)).orElse("")));
    } else if (number.matches()) {
      String title = Optional.ofNullable(number.group(2)).orElse("''");
      sketch.number(
          number.group(1), text(title.substring(1, title.length() - 1)), number.group(3) != null);
    } else if (token.startsWith("!")) {
      sketch.origin(
          Arrays.stream(Origin.values())
              .filter(o -> o.word().equals(token.substring(1)))
              .findFirst()
              .orElseThrow(() -> new IllegalArgumentException("no origin: " + token)));
    } else {
      return false;
    }
    return true;
  }

  private static Map<String, String> facts(String text) {
    Map<String, String> facts = new HashMap<>();
    for (String fact : text.split(",")) {
      if (!fact.isEmpty()) {
        String[] sides = fact.split("=", 2);
        facts.put(sides[0], sides.length > 1 ? sides[1] : "");
      }
    }
    if (!List.of("folio", "picture", "leaf", "unread").containsAll(facts.keySet())) {
      throw new IllegalArgumentException("no facts of a page: " + text);
    }
    return facts;
  }

  private static boolean sign(BookSketch sketch, String token) {
    Optional<Navigation> before = Optional.ofNullable(BEFORE.get(token));
    Optional<Navigation> after = Optional.ofNullable(AFTER.get(token));
    Optional<Barline> line = Optional.ofNullable(LINES.get(token));
    if (before.isPresent()) {
      sketch.pending().signs().add(before.get());
    } else if (after.isPresent()) {
      sketch.mend(b -> b.signs(and(b.build().signs(), after.get())));
    } else if (line.isPresent()) {
      sketch.mend(b -> b.endBarline(line.get()));
    } else if (token.equals("|:")) {
      sketch.repeatStarts();
    } else if (token.equals("]")) {
      sketch.ending(List.of());
    } else if (token.matches("x\\d+")) {
      sketch.mend(b -> b.times(Integer.valueOf(token.substring(1))));
    } else {
      return overNextBar(sketch, token);
    }
    return true;
  }

  private static boolean overNextBar(BookSketch sketch, String token) {
    Matcher words = WORDS.matcher(token);
    Matcher meter = METER.matcher(token);
    Matcher key = KEY.matcher(token);
    Matcher mark = MARK.matcher(token);
    Matcher ending = ENDING.matcher(token);
    if (words.matches()) {
      Placement where = words.group(1).isEmpty() ? Placement.ABOVE : Placement.BELOW;
      sketch.pending().words().add(new Word(text(words.group(2)), where, Optional.empty()));
    } else if (meter.matches()) {
      sketch.meter(
          new Meter(
              Integer.parseInt(meter.group(2)),
              Integer.parseInt(meter.group(3)),
              meter.group(1).isEmpty()));
    } else if (key.matches()) {
      sketch.key(new Key(Integer.parseInt(key.group(1)), true));
    } else if (mark.matches()) {
      sketch.pending().mark(mark(mark));
    } else if (ending.matches()) {
      sketch.ending(Arrays.stream(ending.group(1).split(",")).map(Integer::valueOf).toList());
    } else if (token.matches("=\\d+")) {
      sketch.called(Integer.parseInt(token.substring(1)));
    } else if (token.matches("=.+")) {
      sketch.called(token.substring(1));
    } else {
      return false;
    }
    return true;
  }

  private static RehearsalMark mark(Matcher mark) {
    if (mark.group(1) != null) {
      return new RehearsalMark(mark.group(1), Enclosure.CIRCLE);
    }
    return mark.group(2) != null
        ? new RehearsalMark(mark.group(2), Enclosure.NONE)
        : new RehearsalMark(mark.group(3), Enclosure.BOX);
  }

  private static boolean bars(BookSketch sketch, String token) {
    Matcher bars = BARS.matcher(token);
    if (!bars.matches()) {
      return false;
    }
    int many = bars.group(2).isEmpty() ? 1 : Integer.parseInt(bars.group(2));
    sketch.bars(
        bars.group(1).charAt(0),
        many,
        Optional.ofNullable(bars.group(3)).map(Double::valueOf),
        Optional.ofNullable(bars.group(4)).map(Double::valueOf),
        Optional.ofNullable(bars.group(5)).orElse("1"));
    return true;
  }

  private static <T> List<T> and(List<T> list, T last) {
    List<T> longer = new ArrayList<>(list);
    longer.add(last);
    return longer;
  }

  private static String text(String quoted) {
    return quoted.replace("''", "'");
  }
}
