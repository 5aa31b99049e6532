package org.barmap.plan.words.doubt;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import tools.jackson.databind.node.ObjectNode;

/**
 * Asks for which shows a change is where a day or a performance was said beside it and it would
 * hold in all of them: "Saturday matinee: cut 9 to 12".
 *
 * @param said the day, as it was said
 * @param version the version of the show named with it; empty where none is
 * @param days the days that may be meant, ISO 8601; empty where that is no single day, or not known
 */
public record WhichShows(String said, Optional<String> version, List<String> days) {
  private static final List<String> WEEK = List.of("mon", "tue", "wed", "thu", "fri", "sat", "sun");
  private static final String SHOW =
      "(?:\\s+(?:matin[e\\u00E9]es?|mats?|evenings?|eves?|nights?|afternoons?|shows?|performances?)\\b\\.?)?";
  private static final Pattern DAY =
      phrase(
          "\\b(?:(?<every>every|each|on)\\s+)?(?:(?<next>next)\\s+)?(?:(?<day>mon|tues|wednes|thurs|fri|satur|sun)day(?<many>s)?|(?<tomorrow>tomorrow)|(?:this\\s+|next\\s+)?weekends?"
              + "|tonight(?=\\s*:)|(?:opening|closing|press|gala|final)(?=\\s+(?:night|performance|show))"
              + "|(?:first|last)(?=\\s+(?:performance|show))"
              + "|(?:second|early|late|afternoon|schools?'?)(?=\\s+(?:show|performance|matin))|\\d{1,2}(?:[:.]\\d\\d)?\\s*[ap]\\.?m\\.?(?=\\s+(?:show|performance)))\\b"
              + SHOW
              + "|(?:(?<=^|[:,(]|[:,(]\\s)|(?<=\\bon\\s))(?<short>mon|tues?|weds?|thu|thurs?|fri|sat|sun)\\.?(?:(?=\\s*(?:[:,)&-]|$)|\\s+(?:and|only)\\b)|(?=\\s+(?:matin|mat|eve|night|show|perf)))"
              + SHOW);

  /** What is left of "Schools matinee" where the matinee was taken off it. */
  private static final Pattern WHOSE = phrase("\\bschools?'?(?!\\w)");

  private static final Pattern MATINEE = phrase("\\bmatin[e\\u00E9]es?\\b");

  /** Told of a show that has been. */
  private static final Pattern PAST =
      phrase("\\blast\\s+(?:mon|tues|wednes|thurs|fri|satur|sun)day(?:'s)?\\b");

  private static final Pattern QUOTED =
      Pattern.compile("[\"\\u201C\\u201D][^\"\\u201C\\u201D]*[\"\\u201C\\u201D]");
  private static final Pattern BESIDE =
      phrase(
          "(?:\\b(?:for|on|at|the|this|next|every|only|and|performance|show)\\b|[\\s,:;.&()-])*");

  /** Takes a defensive copy. */
  public WhichShows {
    days = List.copyOf(days);
  }

  /**
   * Returns what was made of a message, with what would hold in all shows asked back.
   *
   * @param line the message
   * @param today the day it is said on, ISO 8601, where that is known
   * @param titles titles of numbers, in which a day is none
   */
  public static List<Heard<ShowChange>> of(
      String line,
      List<Heard<ShowChange>> those,
      Optional<String> today,
      Collection<String> titles) {
    String text = PAST.matcher(QUOTED.matcher(line).replaceAll(" ")).replaceAll(" ");
    for (String title : titles) {
      if (!title.isBlank()) {
        text = text.replaceAll("(?iu)\\b" + Pattern.quote(title) + "(?!\\w)", " ");
      }
    }
    Matcher day = DAY.matcher(text);
    boolean matinee = MATINEE.matcher(text).find();
    boolean found = day.find();
    boolean versions = those.stream().anyMatch(WhichShows::inVersion);
    if (!found && (!matinee || versions)) {
      return those;
    }
    if (!found) {
      return new WhichShows("matinee", Optional.of("matinee"), List.of()).asked(those);
    }
    String rest = DAY.matcher(text).replaceAll(" ");
    if (BESIDE.matcher(MATINEE.matcher(rest).replaceAll(" ")).matches() && !those.isEmpty()) {
      return List.of(alone(line, those.get(0)));
    }
    boolean one = DAY.matcher(text).results().count() == 1;
    boolean evening = day.group().matches("(?i).*\\s(?:evening|eve|night)s?\\.?");
    boolean noon = matinee || day.group().matches("(?i).*\\smats?\\.?");
    Optional<String> version =
        Optional.of(noon ? "matinee" : "evening").filter(v -> noon || evening);
    return new WhichShows(day.group().strip(), version, one ? days(day, today) : List.of())
        .asked(those);
  }

  /** A day that stands alone would look as if what follows held in it. */
  private static Heard<ShowChange> alone(String line, Heard<ShowChange> first) {
    Optional<ShowChange> keep = first.reading().map(r -> r.changes().get(0));
    return new Heard.AskedBack<>(
        line,
        "Say it with each change, as in \""
            + line.replaceFirst("[:,.\\s]+$", "")
            + ": cut 5 to 8\".",
        List.of(),
        List.of(),
        keep);
  }

  private static List<String> days(Matcher day, Optional<String> today) {
    Optional<LocalDate> now = today.flatMap(WhichShows::read);
    String every = day.group("every");
    boolean several = day.group("many") != null || every != null && !every.equalsIgnoreCase("on");
    if (now.isEmpty() || several) {
      return List.of();
    }
    if (day.group("tomorrow") != null) {
      return List.of(now.get().plusDays(1).toString());
    }
    String name = day.group("day") == null ? day.group("short") : day.group("day");
    if (name == null) {
      return List.of();
    }
    int of = WEEK.indexOf(name.toLowerCase(Locale.ROOT).substring(0, 3)) + 1;
    LocalDate coming = now.get().with(TemporalAdjusters.nextOrSame(DayOfWeek.of(of)));
    boolean two = coming.equals(now.get()) || day.group("next") != null;
    String week = coming.plusWeeks(1).toString();
    return two ? List.of(coming.toString(), week) : List.of(coming.toString());
  }

  private static Optional<LocalDate> read(String iso) {
    try {
      return Optional.of(LocalDate.parse(iso));
    } catch (DateTimeParseException e) {
      return Optional.empty();
    }
  }

  private static boolean inVersion(Heard<ShowChange> one) {
    return readings(one).stream()
        .flatMap(r -> r.changes().stream())
        .anyMatch(c -> c.kept().isEmpty() && c.meta().version().isPresent());
  }

  private static List<Heard.Reading<ShowChange>> readings(Heard<ShowChange> one) {
    return one instanceof Heard.AskedBack<ShowChange> asked
        ? asked.readings()
        : one.reading().stream().toList();
  }

  private List<Heard<ShowChange>> asked(List<Heard<ShowChange>> those) {
    boolean open = those.stream().flatMap(h -> readings(h).stream()).anyMatch(this::always);
    if (!open) {
      return List.copyOf(those);
    }
    List<Heard<ShowChange>> all = new ArrayList<>();
    for (Heard<ShowChange> one : those) {
      if (readings(one).stream().anyMatch(this::always)) {
        all.add(which(one));
      } else if (!dayAlone(one)) {
        all.add(one);
      }
    }
    return all;
  }

  /** The day kept as a note says nothing that the question doesn't. */
  private boolean dayAlone(Heard<ShowChange> one) {
    return one instanceof Heard.Understood<ShowChange> u
        && u.change()
            .kept()
            .map(text -> MATINEE.matcher(DAY.matcher(text.text()).replaceAll(" ")).replaceAll(" "))
            .map(text -> WHOSE.matcher(text).replaceAll(" "))
            .filter(rest -> BESIDE.matcher(rest).matches())
            .isPresent();
  }

  private boolean always(Heard.Reading<ShowChange> reading) {
    return reading.changes().stream().anyMatch(this::always);
  }

  /** What has the day among its own words, as a cue, loses nothing. */
  private boolean always(ShowChange change) {
    Meta meta = change.meta();
    return change.kept().isEmpty()
        && meta.since().isEmpty()
        && meta.until().isEmpty()
        && !change.says().toLowerCase(Locale.ROOT).contains(said.toLowerCase(Locale.ROOT));
  }

  private Heard<ShowChange> which(Heard<ShowChange> one) {
    List<Heard.Reading<ShowChange>> ways = new ArrayList<>();
    for (Heard.Reading<ShowChange> reading : readings(one)) {
      if (!always(reading)) {
        ways.add(reading);
        continue;
      }
      days.forEach(d -> ways.add(held(reading, version, Optional.of(d))));
      version.ifPresent(v -> ways.add(held(reading, version, Optional.empty())));
      boolean some = reading.changes().get(0).meta().version().isPresent();
      String every = some ? ", on every day." : ", in every show.";
      if (ways.stream().noneMatch(w -> w.changes().equals(reading.changes()))) {
        ways.add(new Heard.Reading<>(start(reading) + every, reading.changes()));
      }
    }
    Optional<ShowChange> keep =
        one instanceof Heard.AskedBack<ShowChange> asked ? asked.keep() : Optional.empty();
    return new Heard.AskedBack<>(
        one.said(), "For which shows is it: \"" + said + "\"?", List.of(), ways, keep);
  }

  private static String start(Heard.Reading<ShowChange> reading) {
    return reading.says().replaceFirst("\\.$", "");
  }

  private static Heard.Reading<ShowChange> held(
      Heard.Reading<ShowChange> reading, Optional<String> version, Optional<String> day) {
    List<ShowChange> changes = reading.changes().stream().map(c -> held(c, version, day)).toList();
    return new Heard.Reading<>(
        start(reading).replace(reading.changes().get(0).meta().holds(), "")
            + changes.get(0).meta().holds()
            + ".",
        changes);
  }

  private static ShowChange held(
      ShowChange change, Optional<String> version, Optional<String> day) {
    ObjectNode tree = ChangesJson.tree(change);
    version.ifPresent(v -> tree.put("version", v));
    day.ifPresent(d -> tree.put("since", d).put("until", d));
    return ChangesJson.readOne(tree);
  }
}
