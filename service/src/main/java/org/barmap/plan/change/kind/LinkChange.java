package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Linked;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Link;

/**
 * How the next number follows.
 *
 * @param link at once, on cue, after the applause, or not directly
 * @param to label of the number that follows, where it was named
 * @param seconds how long it takes until then, where that is known
 * @param cue what one waits for, in words
 */
@JsonTypeName("link")
public record LinkChange(
    Meta meta,
    String number,
    Link link,
    Optional<String> to,
    Optional<Double> seconds,
    Optional<String> cue)
    implements ShowChange.OfNumber {
  /** Where "segue" only goes on with what was said of the applause, no new instruction begins. */
  static final Wording<ShowChange> WORDING =
      new Wording<>(
          "(?<!applause, )(?<!applause and )(?<!applause then )(?<!applause and then )segue"
              + "|attacca|(?<!attacca, )(?<!segue, )applause",
          LinkChange::read);

  private static final double MOST_SECONDS = 3600;

  private static final String HOW =
      "((?:no|not)\\s+(?:segue|attacca)(?:\\s*,?\\s*(?:but\\s+)?wait\\s+for\\s+(?:(?:the|a)\\s+)?(?:cue|applause))?"
          + "|segue\\s+as\\s+one|segue\\s+in\\s+(?:time|tempo)"
          + "|attacca(?:\\s+subito)?|(?:direct|immediate)\\s+segue"
          + "|segue\\s+(?:directly|immediately|at\\s+once|subito)"
          + "|(?:go(?:es)?\\s+|runs?\\s+)?straight\\s+(?:on|in)(?=\\W*(?:(?:in)?to\\b.*)?$)"
          + "|(?:go(?:es)?\\s+|runs?\\s+)?straight(?=\\s+(?:in)?to\\s+(?:(?:no|nr)\\b\\.?|number|#)\\s*\\d{1,4}[a-z]{0,2}\\W*$)"
          + "|applause(?:\\s*[,-]?\\s*(?:and\\s+)?(?:then\\s+)?segue)?"
          + "|segue\\s+(?:on|after)\\s+(?:the\\s+)?applause"
          + "|(?:wait|hold)\\s+for\\s+(?:the\\s+)?applause|after\\s+(?:the\\s+)?applause"
          + "|segue(?:\\s+on\\s+(?:(?:the|a)\\s+)?cue)?"
          + "|(?:wait\\s+for|on)\\s+(?:(?:the|a)\\s+)?cue"
          + "|(?:dialogue|dialog|a\\s+scene|scene)(?:\\s+follows|\\s+(?:before|till|until)\\s+the\\s+next(?:\\s+number)?"
          + "|\\s+(?:before|till|until)(?=\\s+(?:(?:no|nr)\\b\\.?|number|#)\\s*\\d))?)";
  private static final Pattern SAID =
      phrase(
          HOW
              + "(?:\\s*[,:-]?\\s*(?:and\\s+)?(?:then\\s+)?(?:(?:on\\s*to|into|in\\s+to|to)\\s+)?"
              + "(?:(?:no|nr)\\b\\.?|number|#)?\\s*(\\d{1,4}[a-z]{0,2}))?"
              + "(?:\\s*[,(]?\\s*(?:about|ca\\.?|for|after|of)?\\s*(\\d{1,4}(?:\\.\\d)?)\\s*(?:s|secs?|seconds)\\b\\.?\\)?)?"
              + "(?:\\s*,?\\s*(?:on|at|after|when|wait\\s+for)\\s+(.{2,80}))?");

  @Override
  public Effects effects() {
    return Effects.linking(new Linked(link, to, seconds, cue));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(Marking.at("link", says()));
  }

  @Override
  public String says() {
    return link.says()
        + to.map(t -> " to No. " + Saying.one(t)).orElse("")
        + seconds.map(s -> ", " + Figures.plain(s) + " s").orElse("")
        + cue.map(c -> ", on " + Saying.one(c)).orElse("");
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = SAID.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    Optional<Double> seconds = Optional.ofNullable(m.group(3)).map(Double::valueOf);
    if (seconds.filter(s -> s > MOST_SECONDS).isPresent()) {
      return Optional.empty();
    }
    LinkChange change =
        new LinkChange(
            told.meta(),
            told.number(),
            how(m.group(1).toLowerCase(Locale.ROOT)),
            Optional.ofNullable(m.group(2)).map(t -> t.toUpperCase(Locale.ROOT)),
            seconds,
            Optional.ofNullable(m.group(4)).map(Saying::one));
    return Optional.of(told.understood(change, "the next number: " + change.says()));
  }

  private static Link how(String said) {
    if (said.contains("applause")) {
      return Link.APPLAUSE_SEGUE;
    }
    if (said.startsWith("no")) {
      return said.contains("cue") ? Link.SEGUE : Link.BREAK;
    }
    if (said.contains("as one") || said.matches("segue\\s+in\\s.*") || said.contains("as  one")) {
      return Link.SEGUE_AS_ONE;
    }
    if (said.matches(".*(?:attacca|straight|direct|immediate|at\\s+once|subito).*")) {
      return Link.ATTACCA;
    }
    return said.contains("segue") || said.contains("cue") ? Link.SEGUE : Link.BREAK;
  }
}
