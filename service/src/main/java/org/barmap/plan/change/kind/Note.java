package org.barmap.plan.change.kind;

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
 *
 * @param number the number they are about; empty for the whole show
 * @param first the bar they are about; empty for the whole number
 * @param text the words
 */
@JsonTypeName("note")
@JsonPropertyOrder({"first", "text"})
public record Note(Meta meta, String number, Optional<String> first, String text)
    implements ShowChange {
  static final Wording<ShowChange> WORDING = new Wording<>("", Note::read);

  private static final Pattern NOTE =
      Pattern.compile(
          "note(?:\\s+(?:at|for)\\s+(?:bar\\s+)?([^:]{1,60}))?\\s*:\\s*(.+)", Wording.FLAGS);

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
    return Optional.of(new KeptWords(first, text));
  }

  @Override
  public String says() {
    return "note" + first.map(f -> " at " + Saying.one(f)).orElse("") + ": " + Saying.one(text);
  }

  /** Returns what a player is told who keeps words. */
  public String spoken() {
    return "kept as a note"
        + first.map(f -> " at bar " + Saying.one(f)).orElse("")
        + ", nothing else follows: \""
        + Saying.one(text)
        + "\"";
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = NOTE.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    String text = m.group(2).strip();
    if (m.group(1) == null) {
      Note note = new Note(told.meta(), told.number(), Optional.empty(), text);
      return Optional.of(told.understood(note, note.spoken()));
    }
    String where = m.group(1).strip();
    return Optional.of(
        told.at(
            where,
            bar -> new Note(told.meta(), told.number(), Optional.of(bar), text),
            name -> "kept as a note at bar " + name + ", nothing else follows: \"" + text + "\""));
  }
}
