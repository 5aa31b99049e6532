package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Grip;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.AtBar;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Reminder;

/** A reminder at a bar; its words are in the note. */
@JsonTypeName("remind")
public record Remind(Meta meta, String number, String first, Reminder what)
    implements ShowChange.FromBar {
  static final Wording<ShowChange> WORDING =
      new Wording<>("watch|arco|pizz|mute|push|pull", Remind::read);

  private static final Pattern NOTE =
      phrase("(?:write|note|remind(?:er)?|text|missed)\\s*:?\\s*[\"\\u201C']?(.+?)[\"\\u201D']?");

  @Override
  public Effects effects() {
    return switch (what) {
      case BOW -> Effects.setting(InForce.grip(Grip.ARCO));
      case PIZZ -> Effects.setting(InForce.grip(Grip.PIZZ));
      case MUTE -> {
        boolean off = meta.note().orElse("").toLowerCase(Locale.ROOT).contains("off");
        yield Effects.setting(InForce.grip(off ? Grip.MUTE_OFF : Grip.MUTE_ON));
      }
      case EXTENSION -> Effects.setting(InForce.grip(Grip.EXTENSION));
      case WATCH, CUE, PUSH, PULL, MISSED, TEXT -> Effects.NONE;
    };
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(Marking.at(what.word(), what.sign(meta.note())));
  }

  @Override
  public String says() {
    String said =
        what == Reminder.TEXT
            ? "write \"" + meta.note().map(Saying::one).orElse("remember") + "\""
            : what.word();
    return said + " at " + Saying.one(first);
  }

  @Override
  public boolean saysItsNote() {
    return what == Reminder.TEXT;
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    return AtBar.read(told.words()).flatMap(at -> what(at).map(what -> heard(told, at, what)));
  }

  private static Heard<ShowChange> heard(Told<ShowChange> told, AtBar at, Reminder what) {
    Optional<String> note = note(at, what).or(() -> told.meta().note());
    Meta meta = told.meta().noted(note);
    return told.at(
        at.where(),
        new Remind(meta, told.number(), at.where(), what),
        name -> spoken(what) + note.map(n -> " \"" + n + "\"").orElse("") + " at bar " + name);
  }

  private static String spoken(Reminder what) {
    return switch (what) {
      case MISSED -> "reminder (missed before)";
      case TEXT -> "reminder";
      default -> what.word();
    };
  }

  private static Optional<Reminder> what(AtBar at) {
    return switch (plain(at)) {
      case "watch", "glasses", "eyes", "look up", "watch the director" ->
          Optional.of(Reminder.WATCH);
      case "watch me",
          "watch him",
          "watch her",
          "watch the stick",
          "watch the baton",
          "watch out" ->
          Optional.of(Reminder.WATCH);
      case "cue" -> Optional.of(Reminder.CUE);
      case "push", "push on", "move" -> Optional.of(Reminder.PUSH);
      case "pull", "pull back", "hold back" -> Optional.of(Reminder.PULL);
      case "bow", "arco", "take the bow" -> Optional.of(Reminder.BOW);
      case "pizz", "pizzicato" -> Optional.of(Reminder.PIZZ);
      case "mute", "mute on", "mute off" -> Optional.of(Reminder.MUTE);
      case "extension", "ext" -> Optional.of(Reminder.EXTENSION);
      case "missed" -> Optional.of(Reminder.MISSED);
      default ->
          !NOTE.matcher(at.what()).matches()
              ? Optional.empty()
              : Optional.of(plain(at).startsWith("missed") ? Reminder.MISSED : Reminder.TEXT);
    };
  }

  /** In the player's own words, or behind a colon; a mute says itself whether it is on or off. */
  private static Optional<String> note(AtBar at, Reminder what) {
    if (what == Reminder.MISSED || what == Reminder.TEXT) {
      Matcher text = NOTE.matcher(at.what());
      return text.matches() ? Optional.of(text.group(1)) : Optional.empty();
    }
    String said = plain(at);
    return at.note().or(() -> Optional.of(said).filter(s -> s.startsWith("mute ")));
  }

  private static String plain(AtBar at) {
    return at.what().toLowerCase(Locale.ROOT).strip().replaceFirst("[.!]+$", "");
  }
}
