package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Put;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;

/** Slower or faster by and by without a figure, and back: words a player counts by, not seconds. */
public sealed interface Gradual extends ShowChange
    permits Gradual.Rit, Gradual.Accel, Gradual.Back, Gradual.Said {

  /** "44 to 46 to 60": bars, and the figure they lead to. */
  Pattern TO_FIGURE = phrase("(.+?),?\\s+(?:down\\s+|up\\s+)?to\\s+(\\d{2,3})");

  /** Returns the bar it begins in. */
  String first();

  /** Returns the bar it ends in. */
  String last();

  /** Returns the word over the bar it begins in. */
  String word();

  @Override
  default Effects effects() {
    return Effects.on(Course.putting(Put.word(word())));
  }

  @Override
  default Optional<Stretch> where() {
    return Optional.of(new Stretch(first(), last()));
  }

  @Override
  default Optional<Marking> marking() {
    return Optional.of(new Marking(Marking.Where.BRACKETED, "tempo", word()));
  }

  /** Slower. */
  @JsonTypeName("rit")
  record Rit(Meta meta, String number, String first, String last) implements Gradual {
    static final Wording<ShowChange> WORDING =
        new Wording<>("rit(?:ard)?\\.?|rall\\.?|accel\\.?", Gradual::read);

    @Override
    public String word() {
      return "rit.";
    }

    @Override
    public String says() {
      return "rit. " + Saying.range(first, last);
    }
  }

  /** Faster. */
  @JsonTypeName("accel")
  record Accel(Meta meta, String number, String first, String last) implements Gradual {

    @Override
    public String word() {
      return "accel.";
    }

    @Override
    public String says() {
      return "accel. " + Saying.range(first, last);
    }
  }

  /** The tempo that held before. */
  @JsonTypeName("a-tempo")
  record Back(Meta meta, String number, String first) implements Gradual {
    static final Wording<ShowChange> WORDING = new Wording<>("a\\s+tempo", Back::read);

    private static final Pattern BACK =
        phrase("(?:a|back\\s+(?:in|to))\\s+tempo\\s+(?:at|from|in|on)\\s+(.+)");

    @Override
    public String last() {
      return first;
    }

    @Override
    public String word() {
      return "a tempo";
    }

    @Override
    public Optional<Marking> marking() {
      return Optional.of(Marking.at("tempo", word()));
    }

    @Override
    public String says() {
      return "a tempo at " + Saying.one(first);
    }

    private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
      Matcher m = BACK.matcher(told.words());
      return m.matches()
          ? Optional.of(
              told.at(
                  m.group(1),
                  new Back(told.meta(), told.number(), m.group(1).strip()),
                  name -> "a tempo from bar " + name))
          : Optional.empty();
    }
  }

  /**
   * Another tempo in words: half and double time are reckoned, all else is not known.
   *
   * @param text the words, as they are said of print: "a little faster", "double time"
   */
  @JsonTypeName("tempo-word")
  record Said(Meta meta, String number, String first, String text) implements Gradual {
    static final Wording<ShowChange> WORDING = new Wording<>("", Said::read);

    private static final Pattern WORDS =
        phrase(
            "(?:(?:take|play|do|go|is|it's|all|everything)\\s+)*(?:(?:it|this)\\s+)?(?:all\\s+)?"
                + "((?:(?:an?|little|bit|hair|touch|lot|shade|tad|notch|bunch|much|way|slightly|even|quite|poco|molto|un)\\s+)*"
                + "(?:faster|slower|quicker|brighter|broader|pi[u\u00F9]\\s+mosso|meno\\s+mosso)|(?:double|half)[\\s-]time|twice\\s+as\\s+fast|half\\s+as\\s+fast|colla\\s+(?:voce|parte)|freely|rubato|out\\s+of\\s+time)"
                + "(?:\\s+(?:at|from|in)\\s+(.+?)(?:\\s+(?:on|onwards?))?)?");

    @Override
    public String last() {
      return first;
    }

    @Override
    public String word() {
      return text;
    }

    @Override
    public Optional<Marking> marking() {
      return Optional.of(Marking.at("tempo", text));
    }

    @Override
    public String says() {
      return Saying.one(text) + " from " + Saying.one(first);
    }

    private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
      Matcher m = WORDS.matcher(told.words());
      if (!m.matches()) {
        return Optional.empty();
      }
      String said = m.group(1);
      String bar = m.group(2) == null ? "start" : m.group(2).strip();
      return Optional.of(
          told.at(
              bar,
              new Said(told.meta(), told.number(), bar, said),
              name -> said + " from bar " + name));
    }
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m =
        phrase(
                "(rit(?:ard(?:ando)?)?|rall(?:entando)?|slow(?:ing)?\\s+down|accel(?:erando)?|speed(?:ing)?\\s+up)"
                    + "\\.?\\s+(?:(?:in|at|over)\\s+)?([^=]+)")
            .matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    String word = m.group(1).toLowerCase(Locale.ROOT);
    boolean faster = word.startsWith("a") || word.startsWith("sp");
    Matcher to = TO_FIGURE.matcher(m.group(2));
    return Optional.of(
        to.matches() && told.namesBars(to.group(1)) && !told.namesBars(m.group(2))
            ? towards(told, to.group(1), faster, to.group(2))
            : gradual(told, m.group(2), faster));
  }

  private static Heard<ShowChange> gradual(Told<ShowChange> told, String bars, boolean faster) {
    return told.range(
        bars,
        r ->
            faster
                ? new Accel(told.meta(), told.number(), r.first(), r.last())
                : new Rit(told.meta(), told.number(), r.first(), r.last()),
        faster ? " get faster" : " get slower");
  }

  /** A figure alone says neither of which note it is nor where it comes from. */
  private static Heard<ShowChange> towards(
      Told<ShowChange> told, String bars, boolean faster, String figure) {
    Heard<ShowChange> without = gradual(told, bars, faster);
    String word = faster ? "accel. from " : "rit. from ";
    String from = faster ? "100" : "140";
    return without
        .reading()
        .map(
            r ->
                told.choose(
                    figure
                        + " of which note, and coming from which tempo? Say \""
                        + word
                        + bars
                        + ", quarter = "
                        + from
                        + " to "
                        + figure
                        + "\", or leave the figure out.",
                    List.of(r)))
        .orElse(without);
  }
}
