package org.barmap.plan.words.earlier;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;

/**
 * Finds which earlier change a sentence is about, and what becomes of it. Where more than one may
 * be meant, or none, it asks.
 *
 * @param changes what was said before, in that order
 * @param all whether nothing else was said before
 * @param speech those that read everything else
 */
public record Earlier(List<ShowChange> changes, boolean all, Speech speech) {
  /** So many are shown with what becomes of each; of more nobody chooses one in a list. */
  private static final int MOST_SHOWN = 6;

  private static final Pattern ABOUT =
      phrase(
          ".*\\b(?:the|that|this|those|these|our|both|instead|rather|place|said|had|did|same|not|my|your|his|her|scratch|forget|undo|cancel|back|yesterday's)\\b.*");
  private static final Pattern LEAD =
      phrase(
          "^(?:(?:actually|sorry|no|oh|right|ok(?:ay)?|good\\s+news|bad\\s+news|and|but|so|well|now|also|wait|hang\\s+on|change\\s+of\\s+plan|one\\s+more\\s+thing|correction)\\b[,.:!]?\\s+)+");

  /** Takes a defensive copy. */
  public Earlier {
    changes = List.copyOf(changes);
  }

  /**
   * Reads a sentence.
   *
   * @param number the number it is about; empty where it names none
   * @param said the sentence without the words for its number, spelled numbers as figures
   * @return what became of it; empty where it is about no earlier change
   */
  public Optional<List<Heard<ShowChange>>> read(Optional<String> number, String said) {
    String bare = said.strip().replaceAll("\\s+'s\\b", "'s").replaceFirst("[.!]+$", "");
    String typed = LEAD.matcher(bare).replaceFirst("");
    String words = Bare.over(typed);
    if (!ABOUT.matcher(words).matches()) {
      return Optional.empty();
    }
    Rewording rewording = new Rewording(speech);
    Optional<List<Heard<ShowChange>>> back =
        matched(Forms.DROPPED, words, m -> all(m.group("ref"), number, said, this::drop))
            .or(
                () ->
                    matched(Forms.GONE, words, m -> all(m.group("ref"), number, said, this::drop)))
            .or(() -> matched(Forms.BACK, words, m -> backIn(m, number, said)))
            .or(() -> matched(Forms.THAT, words, m -> last(number)));
    if (back.isPresent() || !words.equals(typed)) {
      return back.or(() -> number.map(n -> speech.order(n, Bare.order(typed))));
    }
    return matched(
            Forms.MOVED,
            words,
            m ->
                one(m.group("ref"), number, said, c -> new Moved(speech, rewording).by(c, m))
                    .or(() -> unknown(number, said)))
        .or(() -> starts(words, rewording, number, said))
        .or(() -> matched(Forms.ENDS, words, m -> ends(m, rewording, number, said)))
        .or(() -> matched(Forms.BARS, words, m -> bars(m, rewording, number, said)))
        .or(() -> matched(Forms.INSTEAD, words, m -> instead(m, rewording, number, said)))
        .or(
            () ->
                matched(
                    Forms.INSTEAD_OF,
                    words,
                    m ->
                        one(
                            m.group("ref"),
                            number,
                            said,
                            c -> rewording.order(c, m.group("order")))))
        .or(() -> new Contrast(active(number), speech, rewording).read(number, words));
  }

  private static Optional<List<Heard<ShowChange>>> matched(
      Pattern form, String words, Function<Matcher, Optional<List<Heard<ShowChange>>>> then) {
    Matcher m = form.matcher(words);
    return m.matches() ? then.apply(m) : Optional.empty();
  }

  /** Of this number, where one was named. */
  private List<ShowChange> active(Optional<String> number) {
    return of(number, new ShowChanges(changes).active());
  }

  private static List<ShowChange> of(Optional<String> number, List<ShowChange> those) {
    return those.stream().filter(c -> number.isEmpty() || number.get().equals(c.number())).toList();
  }

  private List<ShowChange> among(Reference ref, List<ShowChange> those) {
    List<ShowChange> found = new ArrayList<>();
    for (String label : those.stream().map(ShowChange::number).distinct().toList()) {
      List<ShowChange> here = those.stream().filter(c -> c.number().equals(label)).toList();
      found.addAll(Placed.told(ref, ref.among(here, speech.bars(label)), speech.bars(label)));
    }
    return found;
  }

  private Optional<List<Heard<ShowChange>>> starts(
      String words, Rewording rewording, Optional<String> number, String said) {
    return matched(
        Forms.STARTS,
        words,
        m -> one(m.group("ref"), number, said, c -> rewording.starts(c, m.group("to"))));
  }

  private Optional<List<Heard<ShowChange>>> ends(
      Matcher m, Rewording rewording, Optional<String> number, String said) {
    String how = m.group("how");
    Optional<List<Heard<ShowChange>>> found =
        one(m.group("ref"), number, said, c -> rewording.ends(c, how, m.group("to")));
    return found;
  }

  private Optional<List<Heard<ShowChange>>> bars(
      Matcher m, Rewording rewording, Optional<String> number, String said) {
    String ref = m.group("ref") == null ? m.group("ref2") : m.group("ref");
    return one(ref, number, said, c -> rewording.to(c, m.group("to")));
  }

  private Optional<List<Heard<ShowChange>>> instead(
      Matcher m, Rewording rewording, Optional<String> number, String said) {
    boolean led = m.group("ref") != null;
    String order = led ? m.group("order") : m.group("order2");
    return one(
        led ? m.group("ref") : m.group("ref2"), number, said, c -> rewording.order(c, order));
  }

  /** What becomes of the one change that is meant. */
  private Optional<List<Heard<ShowChange>>> one(
      String called,
      Optional<String> number,
      String said,
      Function<ShowChange, List<Heard<ShowChange>>> then) {
    Optional<Reference> ref = Reference.of(called);
    List<ShowChange> those = ref.map(r -> among(r, active(number))).orElse(List.of());
    if (ref.isEmpty()) {
      return Optional.empty();
    }
    if (those.isEmpty()) {
      return none(ref.get(), number, said);
    }
    if (those.size() > 1) {
      return which(ref.get(), those, said, then).map(List::of);
    }
    List<Heard<ShowChange>> heard = then.apply(those.get(0));
    return heard.isEmpty() ? Optional.empty() : Optional.of(heard);
  }

  /** What becomes of all that are meant, where several at once were named. */
  private Optional<List<Heard<ShowChange>>> all(
      String called,
      Optional<String> number,
      String said,
      Function<ShowChange, List<Heard<ShowChange>>> then) {
    Optional<Reference> ref = Reference.of(called).filter(Reference::all);
    List<ShowChange> those = ref.map(r -> among(r, active(number))).orElse(List.of());
    return those.size() > 1
        ? Optional.of(those.stream().flatMap(c -> then.apply(c).stream()).toList())
        : one(called, number, said, then);
  }

  private List<Heard<ShowChange>> takeBack(ShowChange earlier) {
    ShowChange back = ShowChange.takingBack(speech.next(), earlier);
    return List.of(
        new Heard.Understood<>(
            earlier.says(),
            back,
            speech.start(earlier.number())
                + "\""
                + earlier.says()
                + earlier.meta().holds()
                + "\" is taken back."));
  }

  /** Takes a change back, and with it what it came in the place of: that doesn't count again. */
  private List<Heard<ShowChange>> drop(ShowChange earlier) {
    List<ShowChange> on = new ShowChanges(changes).active();
    List<ShowChange> gone = new ArrayList<>(List.of(earlier));
    for (int i = 0; i < gone.size(); i++) {
      Optional<String> old = gone.get(i).meta().replaces();
      changes.stream()
          .filter(c -> old.equals(Optional.of(c.meta().id())) && c.meta().on() && !c.takesBack())
          .filter(c -> !on.contains(c) && !gone.contains(c))
          .forEach(gone::add);
    }
    Collections.reverse(gone); // whoever takes back what was said last has the latest one again
    return gone.stream().flatMap(c -> takeBack(c).stream()).toList();
  }

  /** What was said last is taken back. */
  private Optional<List<Heard<ShowChange>>> last(Optional<String> number) {
    List<ShowChange> those = active(number);
    return those.isEmpty() ? Optional.empty() : Optional.of(takeBack(those.get(those.size() - 1)));
  }

  /** "Put the cut back" is said of the music and of the cut alike. */
  private Optional<List<Heard<ShowChange>>> backIn(
      Matcher m, Optional<String> number, String said) {
    String called =
        m.group("ref") != null
            ? m.group("ref")
            : m.group("ref2") != null ? m.group("ref2") : m.group("ref3");
    Optional<Reference> ref = Reference.of(called);
    if (ref.isEmpty()) {
      return Optional.empty();
    }
    List<ShowChange> on = among(ref.get(), active(number));
    List<ShowChange> off = new ArrayList<>(among(ref.get(), of(number, changes)));
    off.removeAll(on);
    if (on.isEmpty() && off.size() == 1) {
      return Optional.of(new Rewording(speech).again(off.get(0)));
    }
    if (on.isEmpty() && off.isEmpty()) {
      return none(ref.get(), number, said);
    }
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    on.forEach(c -> readings.add(reading(drop(c), "played again: ")));
    on.forEach(c -> readings.add(Heard.Reading.wanting("it stays as it is: " + c.says())));
    off.forEach(
        c -> new Rewording(speech).again(c).forEach(h -> h.reading().ifPresent(readings::add)));
    return Optional.of(
        List.of(
            new Heard.AskedBack<>(
                said,
                "Is it played again as printed, or changed again as said before?",
                List.of(),
                readings)));
  }

  /** One reading of all that is understood. */
  private static Heard.Reading<ShowChange> reading(List<Heard<ShowChange>> heard, String before) {
    List<Heard.Reading<ShowChange>> all =
        heard.stream().flatMap(h -> h.reading().stream()).toList();
    return new Heard.Reading<>(
        before + all.stream().map(Heard.Reading::says).collect(Collectors.joining(" ")),
        all.stream().flatMap(r -> r.changes().stream()).toList());
  }

  /** Empty where it says of none what becomes of it. */
  private Optional<Heard<ShowChange>> which(
      Reference ref,
      List<ShowChange> those,
      String said,
      Function<ShowChange, List<Heard<ShowChange>>> then) {
    String question = "Which " + ref.noun() + " is meant?";
    if (those.size() > MOST_SHOWN) {
      List<String> some =
          those.stream().limit(MOST_SHOWN).map(c -> speech.start(c.number()) + c.says()).toList();
      return Optional.of(new Heard.AskedBack<>(said, question, some));
    }
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (ShowChange each : those) {
      List<Heard<ShowChange>> heard = then.apply(each);
      if (heard.stream().anyMatch(h -> h.reading().isPresent())) {
        readings.add(reading(heard, ""));
      }
    }
    return readings.isEmpty()
        ? Optional.empty()
        : Optional.of(new Heard.AskedBack<>(said, question, List.of(), readings));
  }

  /** By how much is clear, of which change is not. */
  private Optional<List<Heard<ShowChange>>> unknown(Optional<String> number, String said) {
    String where = number.map(speech::start).orElse("");
    String question = where + "Which change is that? Say it with its bars.";
    return Optional.of(List.of(new Heard.AskedBack<>(said, question, List.of())));
  }

  /** None was said: it may be the printed one, which others know about. */
  private Optional<List<Heard<ShowChange>>> none(
      Reference ref, Optional<String> number, String said) {
    boolean cut = ref.kinds().contains("cut") && ref.noun().matches("cut|chop|omission");
    if (!cut || !all) {
      return Optional.empty();
    }
    List<ShowChange> others = active(Optional.empty());
    String where = number.map(speech::start).orElse("");
    List<String> candidates =
        others.stream()
            .filter(c -> ref.kinds().contains(c.kind()))
            .map(c -> speech.start(c.number()) + c.says())
            .toList();
    return Optional.of(
        List.of(
            new Heard.AskedBack<>(
                said,
                where + "There is no such " + ref.noun() + " so far. Which bars are meant?",
                candidates)));
  }
}
