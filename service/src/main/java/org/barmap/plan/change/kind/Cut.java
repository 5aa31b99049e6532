package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Navigation;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Pass;
import org.jspecify.annotations.Nullable;

/**
 * Bars left out, both ends included; addresses may name beats.
 *
 * @param pass in which pass only; empty where they are out for good
 */
@JsonTypeName("cut")
public record Cut(Meta meta, String number, String first, String last, Optional<Pass> pass)
    implements ShowChange.OfBars {
  static final Wording<ShowChange> WORDING =
      new Wording<>(
          "cut|omit|skip|lose|drop|jump|go\\s+(?:from|straight)|straight\\s+from|from\\s+\\S+(?:\\s+\\S+){0,4}?\\s+(?:go|jump|straight)",
          Cut::read);

  private static final String GONE =
      "(?:cut|out|omitted|gone|removed|dropped|deleted|taken\\s+out|left\\s+out|skipped)";
  private static final Pattern CUT =
      phrase(
          "(?:let's\\s+|please\\s+|we\\s+|now\\s+)*(?:cut|omit|skip|lose|drop|delete|remove|leave\\s+out|take\\s+out)"
              + "\\s+(?:out\\s+)?(.+?)"
              + "|(.+?),?\\s+(?:(?:is|are|goes|go|now|all|was|were|gets|get)\\s+)*"
              + GONE);
  private static final String WAY =
      "(?:(?:we|you|then|and|now|just)\\s+)*(?:go|jump|skip|cut|straight|directly|direct|on)(?:\\s+(?:go|straight|right|directly|direct|on|ahead|over))*";
  private static final Pattern JUMP =
      phrase(
          "(?:(?:we|you|please)\\s+)?(?:go|jump|skip|straight)(?:\\s+(?:straight|right|directly))?\\s+(from|after)\\s+(.+?),?"
              + "\\s+(?:(?:straight|right|directly|go|on)\\s+)*to\\s+(.+)");
  private static final Pattern FROM =
      phrase("(?:(from|after|at)\\s+)?(.+?),?\\s+" + WAY + "\\s+(?:to|into)\\s+(.+)");
  private static final Pattern TO =
      phrase(
          "(?:cut|go|jump|skip|straight)(?:\\s+(?:straight|right|directly|on))*\\s+(?:up\\s+)?to\\s+(.+)");
  private static final Pattern START =
      phrase(
          "(?:we\\s+|now\\s+)?(?:starts?|begins?|pick(?:s)?\\s+(?:it\\s+)?up|take\\s+it|top)\\s+(?:at|from|with)\\s+(.+)");
  private static final Pattern STOP =
      phrase(
          "(?:we\\s+|now\\s+)?(?:stops?|ends?|finish(?:es)?|(?:get\\s+|go\\s+)?out)\\s+(after|at(?:\\s+the\\s+end\\s+of)?|with|on)\\s+(.+)");
  private static final Pattern BEAT_ONLY =
      phrase("(?:beat|bt\\.?)\\s+\\S+|the\\s+\\S+\\s+beat|cue");

  /** Makes a cut for good. */
  public Cut(Meta meta, String number, String first, String last) {
    this(meta, number, first, last, Optional.empty());
  }

  @Override
  public Effects effects() {
    return pass.isEmpty()
        ? Effects.LEFT_OUT
        : Effects.on(Course.in(new PassRule(PassRule.Does.CUT, pass)));
  }

  /** Cuts that touch share their brackets, so the marks are made from all that is left out. */
  @Override
  public Optional<Marking> marking() {
    return pass.map(p -> new Marking(Marking.Where.BRACKETED, "cut-pass", "out " + p.sign()));
  }

  @Override
  public Optional<ShowChange> over(String from, String to) {
    return Optional.of(new Cut(meta, number, from, to, pass));
  }

  @Override
  public String says() {
    return "cut " + Saying.range(first, last) + pass.map(p -> " " + p.says()).orElse("");
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    String words = told.words();
    Matcher to = TO.matcher(words);
    if (to.matches() && told.namesBars(to.group(1))) {
      return Optional.of(fromWhere(told, to.group(1)));
    }
    Matcher jump = JUMP.matcher(words);
    if (jump.matches()
        && words.matches("(?i)skip\\s+from\\s+.*")
        && told.namesBars(jump.group(3))) {
      return Optional.of(either(told, jump.group(2), jump.group(3)));
    }
    if (jump.matches()) {
      return Optional.of(over(told, jump.group(1), jump.group(2), jump.group(3)));
    }
    Matcher from = FROM.matcher(words);
    if (from.matches() && told.namesBars(plain(from.group(2))) && !words.matches("(?i)cut\\s.*")) {
      return Optional.of(over(told, from.group(1), from.group(2), from.group(3)));
    }
    Matcher start = START.matcher(words);
    if (start.matches() && told.namesBars(start.group(1))) {
      return Optional.of(cut(told, "start to beginning of " + start.group(1)));
    }
    Matcher stop = STOP.matcher(words);
    if (stop.matches()
        && told.namesBars(stop.group(2))
        && !BEAT_ONLY.matcher(stop.group(2)).matches()) {
      return Optional.of(stop(told, stop.group(1), stop.group(2)));
    }
    Matcher cut = CUT.matcher(words);
    return cut.matches()
        ? Optional.of(cut(told, cut.group(1) == null ? cut.group(2) : cut.group(1)))
        : Optional.empty();
  }

  /** "Skip from 20 to 29": 20 is played and one lands on 29, or both are out. */
  private static Heard<ShowChange> either(Told<ShowChange> told, String from, String to) {
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    over(told, "after", from, to).reading().ifPresent(readings::add);
    cut(told, from + " to " + to).reading().ifPresent(readings::add);
    return readings.size() < 2
        ? over(told, "from", from, to)
        : told.choose("Are " + from + " and " + to + " played?", readings);
  }

  private static String plain(String bar) {
    return bar.replaceFirst("(?i)^(?:the\\s+)?end\\s+of\\s+", "");
  }

  /** "From 33 go to 50" leaves out what lies between; "from F" may be before or behind its bar. */
  private static Heard<ShowChange> over(
      Told<ShowChange> told, @Nullable String how, String from, String to) {
    String bar = plain(from);
    String land =
        " to beginning of "
            + to.replaceFirst("(?i)^(?:the\\s+)?(?:beginning|start|top|head)\\s+of\\s+", "");
    boolean end = !bar.equals(from);
    boolean mark =
        how != null && how.equalsIgnoreCase("from") && bar.matches("\\p{L}{1,2}") && !end;
    if (!mark) {
      return cut(told, "after " + bar + land);
    }
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (String first : List.of(bar, "after the bar at " + bar)) {
      Heard<ShowChange> one = cut(told, first + land);
      if (one instanceof Heard.Understood<ShowChange> understood) {
        readings.add(new Heard.Reading<>(understood.sentence(), List.of(understood.change())));
      }
    }
    return readings.isEmpty()
        ? cut(told, bar + land)
        : told.choose("From " + bar + " on, or after its bar?", readings);
  }

  /** "Cut to G": where one lands is said, from where one goes there is not. */
  private static Heard<ShowChange> fromWhere(Told<ShowChange> told, String to) {
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    List<String> leaves = told.bars(b -> b.has(Navigation.TO_CODA));
    if (leaves.size() == 1 && to.matches("(?i)(?:the\\s+)?coda(?:\\s+sign)?")) {
      Heard<ShowChange> first = cut(told, "after " + leaves.get(0) + " to beginning of " + to);
      first.reading().ifPresent(readings::add);
      readings.add(Heard.Reading.wanting("from where the jump back is: say \"no D.S.\""));
      return told.choose("To " + to + ", but from where?", readings);
    }
    Heard<ShowChange> start = cut(told, "start to beginning of " + to);
    if (start instanceof Heard.Understood<ShowChange> understood) {
      readings.add(
          new Heard.Reading<>(
              "from the beginning; " + understood.sentence(), List.of(understood.change())));
    }
    readings.add(Heard.Reading.wanting("from another bar: say \"from 34 go to " + to + "\""));
    return told.choose("To " + to + ", but from where?", readings);
  }

  /** "Stop at 49" may have 49 played or not. */
  private static Heard<ShowChange> stop(Told<ShowChange> told, String how, String where) {
    Heard<ShowChange> after = cut(told, "after " + where + " to end");
    Heard<ShowChange> before = cut(told, where + " to end");
    boolean both = after instanceof Heard.Understood && before instanceof Heard.Understood;
    if (!how.toLowerCase(Locale.ROOT).equals("at") || !both) {
      return after;
    }
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (Heard<ShowChange> one : List.of(after, before)) {
      if (one instanceof Heard.Understood<ShowChange> understood) {
        readings.add(new Heard.Reading<>(understood.sentence(), List.of(understood.change())));
      }
    }
    return told.choose("Is " + where + " still played?", readings);
  }

  private static Heard<ShowChange> cut(Told<ShowChange> told, String said) {
    Pass.Behind behind = Pass.behind(said);
    return told.out(
        behind.words(),
        r -> new Cut(told.meta(), told.number(), r.first(), r.last(), behind.pass()),
        behind.pass().map(p -> ", " + p.says()).orElse(""));
  }
}
