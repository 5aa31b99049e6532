package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
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
    permits Gradual.Rit, Gradual.Accel, Gradual.Back {

  /** Returns the bar it begins in. */
  String first();

  /** Returns the word over that bar. */
  String word();

  @Override
  default Effects effects() {
    return Effects.on(Course.putting(Put.word(word())));
  }

  @Override
  default Optional<Stretch> where() {
    return Optional.of(Stretch.at(first()));
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
    public Optional<Stretch> where() {
      return Optional.of(new Stretch(first, last));
    }

    @Override
    public Optional<Marking> marking() {
      return Optional.of(new Marking(Marking.Where.BRACKETED, "tempo", word()));
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
    public Optional<Stretch> where() {
      return Optional.of(new Stretch(first, last));
    }

    @Override
    public Optional<Marking> marking() {
      return Optional.of(new Marking(Marking.Where.BRACKETED, "tempo", word()));
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
        Pattern.compile(
            "(?:a|back\\s+(?:in|to))\\s+tempo\\s+(?:at|from|in|on)\\s+(.+)", Wording.FLAGS);

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

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m =
        Pattern.compile(
                "(rit(?:ard(?:ando)?)?|rall(?:entando)?|slow(?:ing)?\\s+down|accel(?:erando)?|speed(?:ing)?\\s+up)"
                    + "\\.?\\s+(?:(?:in|at|over)\\s+)?([^=]+)",
                Wording.FLAGS)
            .matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    String word = m.group(1).toLowerCase(Locale.ROOT);
    boolean faster = word.startsWith("a") || word.startsWith("sp");
    return Optional.of(
        told.range(
            m.group(2),
            r ->
                faster
                    ? new Accel(told.meta(), told.number(), r.first(), r.last())
                    : new Rit(told.meta(), told.number(), r.first(), r.last()),
            faster ? " get faster" : " get slower"));
  }
}
