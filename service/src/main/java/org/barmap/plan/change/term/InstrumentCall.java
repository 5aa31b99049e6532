package org.barmap.plan.change.term;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Words that put an instrument into the player's hands: "To Fl.", "Elec. Bs.", "Double Bass, pizz."
 *
 * @param names the instrument in full; several where the print leaves it open ("Elec. or Ac. Bass")
 * @param announced said with "to" or "take": it is needed at the next note
 * @param rest what else the words say
 */
public record InstrumentCall(List<String> names, boolean announced, String rest) {

  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final int MOST_LETTERS = 120;

  /** A name of so many letters is no other word; one of no more than that needs its point. */
  private static final int LONG = 7;

  private static final int SHORT = 3;
  private static final Pattern VERB =
      phrase(
          "(?:(?:to|take(?:\\s+up)?|pick\\s+up|(?:change|switch)\\s+(?:to|for)|muta(?:\\s+in)?|nimm|back\\s+to|on)"
              + "\\s+(?:(?:the|your)\\s+)?)");
  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{N}'\\u266D\\u266F]+");
  private static final Pattern TAIL =
      Pattern.compile(
          "\\s*(?:[,;:(\\[)\\]\\u2013\\u2014-].*|(?:pizz|arco|con|senza|with|w/|for|here|now|at|next|col|mute|solo|tacet|cue)\\b.*)?",
          FLAGS | Pattern.DOTALL);
  private static final Pattern ONE_OF_TWO = Pattern.compile("electric|elec|el|acoustic|acous|ac");
  private static final Pattern OR = phrase("\\s+or\\s+");

  private static final Heard<Said, Optional<InstrumentCall>> HEARD = new Heard<>();

  /** Takes a defensive copy. */
  public InstrumentCall {
    names = List.copyOf(names);
  }

  /**
   * Reads printed words; empty where they call for nothing, or name another player's instrument.
   *
   * @param hand the instrument in hand, empty where unknown: a name alone that no player of it
   *     takes up is a cue
   */
  public static Optional<InstrumentCall> read(String words, String hand) {
    return read(words, hand, "");
  }

  /**
   * Reads printed words in the book of a chair: a name of its own instruments is never a cue, also
   * while another is in hand.
   *
   * @param home the chair, as {@link InstrumentNames#chairOf} returns it
   */
  public static Optional<InstrumentCall> read(String words, String hand, String home) {
    if (words.length() > MOST_LETTERS) {
      return Optional.empty();
    }
    return HEARD.of(new Said(words, hand, home), () -> meant(words, hand, home));
  }

  private record Said(String words, String hand, String home) {}

  private static Optional<InstrumentCall> meant(String words, String hand, String home) {
    String text = words.strip();
    boolean bracket = text.startsWith("(") || text.startsWith("[");
    String open = bracket ? text.substring(1).strip() : text;
    Matcher verb = VERB.matcher(open);
    boolean announced = verb.lookingAt();
    String said = announced ? open.substring(verb.end()) : open;
    String chair = InstrumentNames.chair(hand).orElse("");
    Optional<InstrumentCall> call = either(said, announced).or(() -> one(said, announced, chair));
    return call.filter(
        c ->
            announced
                || ((own(c, chair, bracket) || (!bracket && ofHome(c, home)))
                    && sure(said, c, chair)));
  }

  /** "vib." or "Eb" alone is mostly something else than an instrument. */
  private static boolean sure(String said, InstrumentCall call, String chair) {
    String named = said.substring(0, said.length() - call.rest.length());
    int letters = named.replaceAll("[^\\p{L}]", "").length();
    boolean full = plain(named).replaceAll("[^\\p{L} ]", "").strip().equals(call.names.get(0));
    return full
        || letters >= LONG
        || (!chair.isEmpty() && (letters > SHORT || named.contains(".")));
  }

  /** A name alone is the player's own where it is of the chair; in brackets it is mostly a cue. */
  private static boolean own(InstrumentCall call, String chair, boolean bracket) {
    String named = InstrumentNames.chair(call.names.get(0)).orElse("");
    boolean lows = chair.equals("bass") && call.names.get(0).equals("tuba");
    return bracket
        ? chair.equals("bass") && named.equals(chair)
        : chair.isEmpty() || lows || named.equals(chair);
  }

  private static boolean ofHome(InstrumentCall call, String home) {
    return InstrumentNames.chair(call.names.get(0)).filter(home::equals).isPresent();
  }

  private static Optional<InstrumentCall> one(String said, boolean announced, String chair) {
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(said);
    List<Integer> ends = new ArrayList<>();
    while (words.size() < InstrumentNames.MOST_WORDS && word.find()) {
      String between = said.substring(ends.isEmpty() ? 0 : ends.get(ends.size() - 1), word.start());
      if (!between.matches("[\\s.-]*")) {
        break;
      }
      words.add(word.group().toLowerCase(Locale.ROOT));
      ends.add(word.end());
    }
    for (int n = words.size(); n > 0; n--) {
      Optional<String> name = name(String.join(" ", words.subList(0, n)), chair, announced);
      String rest = said.substring(ends.get(n - 1)).replaceFirst("^\\.", "");
      if (name.isPresent() && TAIL.matcher(rest).matches()) {
        String more = rest.replaceFirst("^[\\s,;:)\\]\\u2013\\u2014-]+", "").strip();
        return Optional.of(new InstrumentCall(List.of(name.get()), announced, more));
      }
    }
    return Optional.empty();
  }

  private static Optional<String> name(String plain, String chair, boolean announced) {
    return announced && ONE_OF_TWO.matcher(plain).matches()
        ? oneOfTwo(plain, chair)
        : InstrumentNames.named(plain).map(InstrumentNames.Named::name);
  }

  /** "To Electric" is the electric one of what the chair plays. */
  static Optional<String> oneOfTwo(String plain, String chair) {
    if (!ONE_OF_TWO.matcher(plain).matches()) {
      return Optional.empty();
    }
    boolean electric = plain.startsWith("e");
    return switch (chair) {
      case "bass" -> Optional.of(electric ? "electric bass" : "double bass");
      case "guitar" -> Optional.of(electric ? "electric guitar" : "acoustic guitar");
      default -> Optional.empty();
    };
  }

  /** "Elec. or Ac. Bass", "Flute or Piccolo": the print leaves it open. */
  private static Optional<InstrumentCall> either(String said, boolean announced) {
    String[] ways = OR.split(said.replaceFirst("[)\\].\\s]+$", ""));
    if (ways.length != 2) {
      return Optional.empty();
    }
    String second = plain(ways[1]);
    Optional<InstrumentNames.Named> last = InstrumentNames.named(second);
    Optional<InstrumentNames.Named> first =
        InstrumentNames.named(plain(ways[0]))
            .filter(f -> last.isPresent() && f.chair().equals(last.get().chair()))
            .or(
                () ->
                    InstrumentNames.named(plain(ways[0]) + " " + second.replaceFirst("^.* ", "")));
    return first.isPresent() && last.isPresent() && !first.equals(last)
        ? Optional.of(
            new InstrumentCall(List.of(first.get().name(), last.get().name()), announced, ""))
        : Optional.empty();
  }

  /** Lower case, without points and hyphens, single blanks. */
  static String plain(String words) {
    return words.toLowerCase(Locale.ROOT).replaceAll("[.\\-\\s]+", " ").strip();
  }
}
