package org.barmap.plan.words.clause;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.plan.words.grammar.Bars;
import org.barmap.plan.words.grammar.Meant;
import org.barmap.plan.words.grammar.Sounds;

/**
 * What a sentence is about, whatever the order of its words: things done, where, how often, until
 * when. It is understood where no word is left that could change it; else it is only asked.
 */
public final class Sense {
  private static final List<Clause.Deed> DEEDS =
      Stream.of(
              Moves.all(), Undone.all(), Goings.all(), Silences.all(), Tempos.all(), Manners.all())
          .flatMap(List::stream)
          .toList();

  /** Nobody says more in one breath. */
  private static final int MOST_TOKENS = 60;

  private static final int MOST_PARTS = 6;

  private Sense() {}

  /** Returns what a sentence comes to; empty where nothing is done in it, or nowhere. */
  public static Optional<Meant> of(String words, Bars bars) {
    List<Token> tokens = contrasted(Lexer.of(words, bars));
    if (tokens.isEmpty() || tokens.size() > MOST_TOKENS) {
      return Optional.empty();
    }
    Optional<List<String>> whole = all(tokens, bars, MOST_PARTS, List.of());
    if (whole.filter(all -> all.stream().allMatch(i -> i.startsWith("note: "))).isPresent()) {
      return Optional.empty(); // a remark, and nothing else
    }
    return whole.isPresent() ? Optional.<Meant>of(new Meant.Says(whole.get())) : near(tokens, bars);
  }

  /**
   * Whether words that were no change speak of the form all the same: of something done, of several
   * bars, of how often, and not of how it is played. One bar alone is only where a remark belongs.
   */
  public static boolean formal(String words, Bars bars) {
    List<Token> tokens = Lexer.of(words, bars);
    boolean others =
        tokens.stream().anyMatch(t -> t.is(Token.Kind.THEY))
            && tokens.stream().noneMatch(t -> t.is(Token.Kind.YOU) && !t.text().equals("bass"));
    return !others
        && tokens.stream().noneMatch(t -> t.is(Token.Kind.STYLE))
        && !excepts(tokens)
        && (tokens.stream().anyMatch(Sense::ofForm)
            || tokens.stream().filter(t -> t.is(Token.Kind.PLACE)).count() > 1);
  }

  /** "Everyone out except bass" says nothing to the bass. */
  private static boolean excepts(List<Token> tokens) {
    for (int i = 1; i < tokens.size(); i++) {
      if (tokens.get(i).is(Token.Kind.YOU) && tokens.get(i - 1).is(Token.Kind.EXCEPT)) {
        return true;
      }
    }
    return false;
  }

  private static boolean ofForm(Token t) {
    return switch (t.kind()) {
      case DO, NOT, ON, CUE, PASS, TIMES, BARS, METER, BEATS, INTERVAL, KEY, INSTRUMENT -> true;
      default -> false;
    };
  }

  /** "Twice, not three times", "arco instead of pizz": what it is not says nothing more. */
  private static List<Token> contrasted(List<Token> tokens) {
    for (int i = 1; i + 1 < tokens.size(); i++) {
      boolean not =
          tokens.get(i).is(Token.Kind.NOT)
              && tokens.get(i).text().matches("(?i)not|instead of|rather than|not to");
      int at = i + 1;
      while (at < tokens.size()
          && (tokens.get(at).is(Token.Kind.PREP) || tokens.get(at).is(Token.Kind.FILL))) {
        at++;
      }
      if (!not || at >= tokens.size()) {
        continue;
      }
      Token other = tokens.get(at);
      boolean same = tokens.subList(0, i).stream().anyMatch(t -> contrasts(t, other));
      boolean ends = at + 1 == tokens.size() || tokens.get(at + 1).free();
      if (same && ends) {
        List<Token> kept = new ArrayList<>(tokens.subList(0, i));
        kept.addAll(tokens.subList(at + 1, tokens.size()));
        return contrasted(kept);
      }
    }
    return tokens;
  }

  private static boolean contrasts(Token one, Token other) {
    String grips = "pizz|arco|muteon|muteoff";
    return switch (other.kind()) {
      case TIMES, FIGURE, METER, BEATS, INSTRUMENT, KEY -> one.kind() == other.kind();
      case PLACE ->
          other.text().matches("\\d{1,3}")
              && (one.is(Token.Kind.TIMES) || one.is(Token.Kind.BEATS) || one.is(Token.Kind.BARS));
      case DO ->
          one.is(Token.Kind.DO) && one.value().matches(grips) && other.value().matches(grips);
      default -> false;
    };
  }

  /** Takes a sentence apart into as few clauses as leave nothing over. */
  private static Optional<List<String>> all(
      List<Token> tokens, Bars bars, int most, List<Token> lead) {
    boolean later = lead.stream().anyMatch(t -> t.is(Token.Kind.PLACE));
    Optional<List<String>> one = one(tokens, bars, lead, later);
    if (one.isPresent() || most == 1) {
      return one;
    }
    for (int i = tokens.size() - 2; i > 0; i--) {
      if (!tokens.get(i).is(Token.Kind.COMMA) && !tokens.get(i).is(Token.Kind.AND)
          || listed(tokens, i)) {
        continue;
      }
      List<Token> head = tokens.subList(0, i);
      Token at = tokens.get(i);
      Optional<List<String>> first =
          one(head, bars, lead, later)
              .or(() -> aside(head))
              .or(() -> stays(head, lead, bars))
              .or(() -> at.is(Token.Kind.COMMA) ? remark(head, at, true) : Optional.empty());
      if (first.isEmpty()) {
        continue;
      }
      List<Token> tail = referred(tokens.subList(i + 1, tokens.size()), head, bars);
      List<String> orders = first.get();
      Optional<List<String>> rest =
          Restated.follows(orders, tail, bars)
              ? Optional.of(List.of())
              : all(tail, bars, most - 1, lead(head, tail))
                  .or(() -> aside(tail))
                  .or(() -> at.is(Token.Kind.COMMA) ? remark(tail, at, false) : Optional.empty());
      if (rest.isPresent()) {
        List<String> both = new ArrayList<>(orders);
        rest.get().stream()
            .filter(r -> both.stream().noneMatch(b -> b.equals(r) || Restated.same(b, r, bars)))
            .forEach(both::add);
        if (both.stream().anyMatch(b -> b.endsWith(" go to coda"))) {
          both.removeIf(b -> b.matches("no D\\.[SC]\\."));
        }
        return Optional.of(both);
      }
    }
    return Optional.empty();
  }

  /** "17 and 18" are two bars of one order. */
  private static boolean listed(List<Token> tokens, int at) {
    return tokens.get(at).is(Token.Kind.AND)
        && tokens.get(at).text().equalsIgnoreCase("and")
        && tokens.get(at - 1).is(Token.Kind.PLACE)
        && tokens.get(at + 1).is(Token.Kind.PLACE)
        && tokens.get(at - 1).value().matches("\\d+")
        && tokens.get(at + 1).value().matches("\\d+")
        && (at + 2 >= tokens.size() || !tokens.get(at + 2).is(Token.Kind.PREP));
  }

  /** A clause beside an order that orders nothing itself; why it is so is kept as a note. */
  private static Optional<List<String>> aside(List<Token> tokens) {
    if (Talk.goesOn(tokens) || Talk.shows(tokens)) {
      return Optional.of(List.of());
    }
    return Talk.reason(tokens) || Talk.context(tokens)
        ? Optional.of(List.of("note: " + Clause.said(tokens)))
        : Optional.empty();
  }

  /** Bars that are not out, beside those that were spoken of. */
  private static Optional<List<String>> stays(List<Token> tokens, List<Token> lead, Bars bars) {
    return Restated.stays(tokens) && Restated.beside(lead, tokens, bars)
        ? Optional.of(List.of("note: " + Clause.said(tokens)))
        : Optional.empty();
  }

  /** Whether words only say why something is so, or what others do. */
  public static boolean aside(String words, Bars bars) {
    return aside(Lexer.of(words, bars)).isPresent();
  }

  /** "After that go to C": after the bars that were spoken of. */
  private static List<Token> referred(List<Token> tail, List<Token> head, Bars bars) {
    Optional<Token> last = head.stream().filter(t -> t.is(Token.Kind.PLACE)).reduce((a, b) -> b);
    if (last.isEmpty()) {
      return tail;
    }
    List<Token> all = new ArrayList<>(tail);
    for (int i = 0; i + 1 < all.size(); i++) {
      Optional<Bars.Ends> those = bars.ends(last.get().value());
      if (those.isPresent()
          && all.get(i).text().matches("(?i)(?:the )?(?:very )?last")
          && all.get(i + 1).text().matches("(?i)one")) {
        all.set(i, new Token(Token.Kind.PLACE, those.get().last(), all.get(i).text()));
        all.remove(i + 1);
      }
    }
    if (head.stream().anyMatch(t -> t.does("muteon"))) {
      all.replaceAll(
          t ->
              t.is(Token.Kind.WORD) && t.text().equalsIgnoreCase("off")
                  ? new Token(Token.Kind.DO, "muteoff", t.text())
                  : t);
    }
    for (int i = 0; i + 1 < all.size(); i++) {
      boolean after =
          all.get(i).is(Token.Kind.PREP) && all.get(i).value().matches("after|from|out of");
      if (after && all.get(i + 1).is(Token.Kind.THERE)) {
        all.set(i, new Token(Token.Kind.PREP, "after", all.get(i).text()));
        all.set(i + 1, last.get());
        return all;
      }
    }
    boolean goes =
        head.stream().anyMatch(t -> t.does("vamp") || t.does("hold") || t.is(Token.Kind.TIMES))
            && tail.stream().anyMatch(t -> t.does("go") || t.does("land"))
            && tail.stream().noneMatch(t -> t.is(Token.Kind.DO) && !t.does("go") && !t.does("land"))
            && tail.stream().filter(t -> t.is(Token.Kind.PLACE)).count() == 1;
    boolean inPass =
        head.stream().anyMatch(t -> t.is(Token.Kind.TIMES))
            && tail.stream().anyMatch(t -> t.is(Token.Kind.PASS))
            && tail.stream()
                .noneMatch(t -> t.is(Token.Kind.PLACE) || t.value().startsWith("ending"));
    if (inPass) {
      lead(head, tail).stream()
          .filter(t -> t.is(Token.Kind.PLACE) || t.is(Token.Kind.PREP))
          .forEach(all::add);
    }
    if (goes) {
      all.add(0, last.get());
      all.add(0, new Token(Token.Kind.PREP, "after", "after"));
    }
    return all;
  }

  /** What a later clause may lean on: what is done, and where. */
  private static List<Token> lead(List<Token> tokens, List<Token> later) {
    List<Token> lead = new ArrayList<>();
    tokens.stream()
        .filter(t -> t.is(Token.Kind.DO) || t.is(Token.Kind.YOU))
        .findFirst()
        .ifPresent(lead::add);
    for (int i = 0; i < tokens.size(); i++) {
      if (tokens.get(i).is(Token.Kind.PLACE)) {
        if (i > 0 && tokens.get(i - 1).is(Token.Kind.PREP)) {
          lead.add(tokens.get(i - 1));
        }
        lead.add(tokens.get(i));
        boolean stretch =
            i + 2 < tokens.size()
                && later.stream().noneMatch(t -> t.does("go") || t.does("land") || t.does("back"))
                && tokens.get(i + 1).is(Token.Kind.PREP)
                && tokens.get(i + 1).value().matches("to|through|until|-")
                && tokens.get(i + 2).is(Token.Kind.PLACE);
        if (stretch && later.stream().anyMatch(t -> t.does("hold"))) {
          return List.of(tokens.get(i + 2)); // what is held is the last of them
        }
        if (stretch) {
          lead.addAll(tokens.subList(i + 1, i + 3));
        }
        break;
      }
    }
    return lead;
  }

  /** One clause of which nothing is left; small talk comes to nothing. */
  private static Optional<List<String>> one(
      List<Token> tokens, Bars bars, List<Token> lead, boolean later) {
    if (Restated.asItIs(tokens, bars)) {
      return Optional.of(List.of());
    }
    for (Clause.Deed deed : DEEDS) {
      Clause clause = new Clause(tokens, bars, later);
      List<String> says = deed.read(clause);
      if (!says.isEmpty() && clause.left().isEmpty()) {
        return Optional.of(says);
      }
    }
    if (tokens.stream().allMatch(Token::free)) {
      return Optional.of(List.of());
    }
    if (lead.isEmpty() || Restated.stays(tokens)) {
      return Optional.empty();
    }
    boolean done = tokens.stream().anyMatch(t -> t.is(Token.Kind.DO));
    boolean where = tokens.stream().anyMatch(t -> t.is(Token.Kind.PLACE));
    List<Token> led = new ArrayList<>();
    for (Token t : lead) {
      boolean place = t.is(Token.Kind.PLACE) || t.is(Token.Kind.PREP);
      if (place ? !where : !done) {
        led.add(t);
      }
    }
    if (led.isEmpty() || led.size() == lead.size() && done == where && !manner(tokens)) {
      return Optional.empty();
    }
    if (!where && !done) {
      led.removeIf(t -> t.is(Token.Kind.DO) || t.is(Token.Kind.YOU));
    }
    led.addAll(tokens);
    return one(led, bars, List.of(), false);
  }

  private static boolean manner(List<Token> tokens) {
    return tokens.stream()
        .anyMatch(
            t ->
                switch (t.kind()) {
                  case FIGURE, METER, BEATS, INSTRUMENT, KEY -> true;
                  default -> false;
                });
  }

  /** A clause about how it is played, or about nothing that anybody counts. */
  private static Optional<List<String>> remark(List<Token> tokens, Token before, boolean head) {
    boolean style = tokens.stream().anyMatch(t -> t.is(Token.Kind.STYLE));
    if (tokens.stream()
        .anyMatch(t -> t.text().matches("(?i)(?:number|no\\.?|nr\\.?|#)\\s*\\d.*"))) {
      return Optional.empty();
    }
    long words = tokens.stream().filter(t -> t.is(Token.Kind.WORD)).count();
    boolean sentence = before.text().matches("[.;!?(-]") || head && words > 1;
    boolean others =
        tokens.stream().anyMatch(t -> t.is(Token.Kind.THEY))
            && tokens.stream().noneMatch(t -> t.is(Token.Kind.YOU) || t.is(Token.Kind.DO));
    boolean small =
        tokens.stream()
            .allMatch(
                t ->
                    t.free()
                        || t.is(Token.Kind.STYLE)
                        || t.is(Token.Kind.WORD)
                        || head
                            && others
                            && (t.is(Token.Kind.THEY)
                                || t.is(Token.Kind.ONLY)
                                || t.is(Token.Kind.NAME))
                        || t.is(Token.Kind.REASON)
                        || style
                            && (t.is(Token.Kind.PLACE)
                                || t.is(Token.Kind.PASS)
                                || t.is(Token.Kind.ON)));
    String said = Clause.said(tokens);
    return (style || sentence) && small && (style || !Sounds.formal(said)) && !said.isBlank()
        ? Optional.of(List.of("note: " + said))
        : Optional.empty();
  }

  /** The deed that leaves the least over is asked about. */
  private static Optional<Meant> near(List<Token> tokens, Bars bars) {
    List<String> best = List.of();
    int least = Integer.MAX_VALUE;
    for (Clause.Deed deed : DEEDS) {
      Clause clause = new Clause(tokens, bars, false);
      List<String> says = deed.read(clause);
      if (!says.isEmpty() && clause.left().size() < least) {
        best = says;
        least = clause.left().size();
      }
    }
    return best.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Meant.Asks("Is that what is meant?", best.subList(0, Math.min(3, best.size()))));
  }
}
