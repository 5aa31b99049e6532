package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.KeptWords;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;

/**
 * Words kept as they were said, with the day they were said: nothing in the plan follows from them.
 * A misprint is one: it is told to whoever hired the book out.
 *
 * @param number the number they are about; empty for the whole show
 * @param first the bar they are about; empty for the whole number
 * @param text the words
 * @param errata true where they tell of a misprint; empty otherwise
 */
@JsonTypeName("note")
@JsonPropertyOrder({"first", "text", "errata"})
public record Note(
    Meta meta, String number, Optional<String> first, String text, Optional<Boolean> errata)
    implements ShowChange {
  static final Wording<ShowChange> WORDING = new Wording<>("", Note::read);

  private static final Pattern NOTE =
      phrase("note(?:\\s+(?:at|for)\\s+(?:bar\\s+)?([^:]{1,60}))?\\s*:\\s*(.+)");

  private static final Pattern MISPRINT =
      phrase(
          "(?:misprint|errat(?:um|a)|printing error)(?:\\s+(?:at|in)\\s+(?:bar\\s+)?([^:]{1,60}))?"
              + "\\s*:\\s*(.+)");

  /** "Wrong note bar 40", "misprint in bar 12", "missing flat at bar 7". */
  private static final Pattern WRONG =
      phrase(
          "((?:misprint(?:ed)?|erratum|(?:wrong|missing|misprinted)"
              + " (?:notes?|accidentals?|sharps?|flats?|naturals?|clef|rest|rests|count|bar"
              + " number|number|key|meter|time signature|ties?|slurs?|articulation|dynamics?)))"
              + ",?(?:\\s+(?:at|in|on)(?:\\s+bar)?|\\s+bar)\\s+(\\S{1,20}?)(?:[,:]\\s*(.+))?");

  /** The bar that words begin with: "bar 12 should be B flat". */
  private static final Pattern BAR = phrase("bar\\s+(\\S{1,20})\\s.*");

  @Override
  public Optional<Stretch> where() {
    return Optional.empty();
  }

  @Override
  public Effects effects() {
    return Effects.NONE;
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.empty();
  }

  @Override
  public Optional<KeptWords> kept() {
    return Optional.of(new KeptWords(first, text, misprint()));
  }

  @Override
  public String says() {
    return word() + first.map(f -> " at " + Saying.one(f)).orElse("") + ": " + Saying.one(text);
  }

  /** Returns what a player is told who keeps words. */
  public String spoken() {
    return (misprint() ? "kept as a misprint for the hirer" : "kept as a note")
        + first.map(f -> " at bar " + Saying.one(f)).orElse("")
        + ", nothing else follows: \""
        + Saying.one(text)
        + "\"";
  }

  private boolean misprint() {
    return errata.orElse(false);
  }

  private String word() {
    return misprint() ? "misprint" : "note";
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher note = NOTE.matcher(told.words());
    if (note.matches()) {
      return Optional.of(
          heard(told, Optional.ofNullable(note.group(1)), note.group(2), Optional.empty()));
    }
    Optional<Boolean> errata = Optional.of(true);
    Matcher misprint = MISPRINT.matcher(told.words());
    if (misprint.matches()) {
      Matcher bar = BAR.matcher(misprint.group(2).strip());
      Optional<String> named =
          bar.matches() ? Optional.of(bar.group(1)).filter(told::namesBars) : Optional.empty();
      Optional<String> where = Optional.ofNullable(misprint.group(1)).or(() -> named);
      return Optional.of(heard(told, where, misprint.group(2), errata));
    }
    Matcher wrong = WRONG.matcher(told.words().replaceFirst("[.!]+$", ""));
    return wrong.matches()
        ? Optional.of(heard(told, Optional.of(wrong.group(2)), what(wrong), errata))
        : Optional.empty();
  }

  private static String what(Matcher wrong) {
    return wrong.group(3) == null ? wrong.group(1) : wrong.group(1) + ": " + wrong.group(3);
  }

  private static Heard<ShowChange> heard(
      Told<ShowChange> told, Optional<String> where, String words, Optional<Boolean> errata) {
    String text = words.strip();
    Note whole = new Note(told.meta(), told.number(), Optional.empty(), text, errata);
    if (where.isEmpty()) {
      return told.understood(whole, whole.spoken());
    }
    return told.at(
        where.get().strip(),
        bar -> new Note(told.meta(), told.number(), Optional.of(bar), text, errata),
        name -> new Note(told.meta(), told.number(), Optional.of(name), text, errata).spoken());
  }
}
