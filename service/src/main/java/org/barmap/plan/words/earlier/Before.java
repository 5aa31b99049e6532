package org.barmap.plan.words.earlier;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.words.grammar.Bars;
import org.barmap.plan.words.number.Mentions;
import org.barmap.plan.words.talk.Retelling;
import org.barmap.plan.words.talk.Retold;
import tools.jackson.databind.node.ObjectNode;

/**
 * Sentences about what was said before, in whatever words they name their number.
 *
 * @param known what was said before this text
 * @param reader reads everything else
 * @param retold the ways to take a sentence apart
 * @param mentions finds the numbers in it
 * @param of finds a number by its label
 * @param figures writes spelled numbers as figures
 * @param holds takes off words when, and in which shows, they hold
 */
public record Before(
    Known known,
    Retelling.Reader reader,
    Retold retold,
    Mentions mentions,
    Function<String, Optional<Of>> of,
    UnaryOperator<String> figures,
    Function<String, Optional<Holds>> holds)
    implements Speech {
  private static final Pattern NUMBERED = phrase("no\\.\\s+(\\S+?):\\s*(.+)");

  private static final Pattern IN = phrase("\\bin\\s+(\\d{1,4}[A-Za-z]{0,2})\\b");

  /** "I said cut 13-20; it's 13-28" is one thing said. */
  private static final Pattern SAID =
      phrase(
          "\\b((?:i|we|you|he|she|they)\\s+(?:said|had|did)\\b[^;\\r\\n]*);(?=\\s*(?:but\\s+|sorry,?\\s+|now\\s+)?(?:it's|it\\s+is|make\\s+it|make\\s+that|that's)\\b)");

  /**
   * A number of the show.
   *
   * @param label its label
   * @param start what a sentence about it begins with: "No. 5: "
   * @param bars its bars
   */
  public record Of(String label, String start, Bars bars) {}

  /**
   * Words without what was said with them of when they hold.
   *
   * @param words without it
   * @param meta which shows, and which days
   */
  public record Holds(String words, Meta meta) {}

  /** Returns a text in which what is one thing said stands in one line. */
  public static String joined(String text) {
    return SAID.matcher(text).replaceAll("$1,");
  }

  /** Returns what a line comes to that is about an earlier change; empty where it is about none. */
  public Optional<List<Heard<ShowChange>>> read(
      String line, Optional<String> number, boolean named) {
    List<ShowChange> changes = new ArrayList<>(known.changes().orElse(List.of()));
    Retelling.State now = reader.state();
    reader.since(new Retelling.State(0, 0, Optional.empty(), false)).stream()
        .filter(h -> h instanceof Heard.Understood)
        .flatMap(h -> h.reading().stream())
        .flatMap(r -> r.changes().stream())
        .forEach(changes::add);
    Earlier earlier = new Earlier(changes, known.changes().isPresent(), this);
    Optional<List<Heard<ShowChange>>> asked = Optional.empty();
    for (Map.Entry<String, Optional<String>> way : ways(line, number, named).entrySet()) {
      Optional<List<Heard<ShowChange>>> heard =
          held(earlier, way.getValue(), way.getKey())
              .or(() -> earlier.read(way.getValue(), way.getKey()));
      reader.back(now);
      if (heard.filter(Before::offers).isPresent()) {
        return heard;
      }
      asked = asked.or(() -> heard);
    }
    return asked;
  }

  /** "The vamp is off at matinees": what becomes of it there, and nowhere else. */
  private Optional<List<Heard<ShowChange>>> held(
      Earlier earlier, Optional<String> number, String words) {
    Optional<Holds> off = holds.apply(words);
    boolean moved = off.filter(h -> Forms.MOVED.matcher(h.words()).matches()).isPresent();
    return off.flatMap(h -> earlier.read(number, h.words()))
        .filter(Before::offers)
        .filter(all -> moved || all.stream().allMatch(h -> h instanceof Heard.Understood))
        .map(all -> all.stream().map(h -> Instead.when(h, off.get().meta())).toList());
  }

  private static boolean offers(List<Heard<ShowChange>> heard) {
    return heard.stream()
        .anyMatch(h -> !(h instanceof Heard.AskedBack<ShowChange> a && a.readings().isEmpty()));
  }

  /** What is said, and of which number; the ways that name a number first. */
  private Map<String, Optional<String>> ways(String line, Optional<String> number, boolean named) {
    Map<String, Optional<String>> ways = new LinkedHashMap<>();
    String text = mentions.figures(line);
    List<Mentions.Mention> all = mentions.in(text, named);
    Set<String> labels = all.stream().map(Mentions.Mention::label).collect(Collectors.toSet());
    if (labels.size() == 1) {
      ways.put(figures.apply(Mentions.without(text, all)), Optional.of(labels.iterator().next()));
    }
    List<String> others = new ArrayList<>();
    for (String way : retold.of(figures.apply(line))) {
      Matcher m = NUMBERED.matcher(way);
      if (m.matches()) {
        of.apply(m.group(1)).ifPresent(c -> ways.putIfAbsent(m.group(2), Optional.of(c.label())));
      } else {
        others.add(way);
      }
    }
    others.add(figures.apply(line));
    others.stream().filter(w -> !names(w)).forEach(w -> ways.putIfAbsent(w, number));
    return ways;
  }

  /** "The cut in 3" is in No. 3 of the show, where there is one, and not at bar 3. */
  private boolean names(String words) {
    Matcher m = IN.matcher(words);
    return m.find() && of.apply(m.group(1)).isPresent();
  }

  @Override
  public List<Heard<ShowChange>> order(String number, String words) {
    Retelling.State before = reader.state();
    reader.plainly(number.isEmpty() ? words : "No. " + number + ": " + words);
    List<Heard<ShowChange>> heard = List.copyOf(reader.since(before));
    reader.back(before);
    return heard;
  }

  @Override
  public Optional<Bars> bars(String number) {
    return of.apply(number).map(Of::bars);
  }

  @Override
  public String start(String number) {
    return of.apply(number).map(Of::start).orElse("");
  }

  @Override
  public Meta next() {
    return Meta.of("n" + reader.state().next());
  }

  /**
   * Answers "the bar at A, or its section?" where only one of both was cut before, when it is in
   * again.
   */
  public List<Heard<ShowChange>> told(List<Heard<ShowChange>> heard) {
    List<ShowChange> changes = new ArrayList<>(known.changes().orElse(List.of()));
    List<Heard<ShowChange>> all = new ArrayList<>();
    for (Heard<ShowChange> each : heard) {
      all.add(
          each instanceof Heard.AskedBack<ShowChange> a
              ? Cuts.restored(a, changes, this)
              : Cuts.oneOf((Heard.Understood<ShowChange>) each, changes, this));
      each.reading().ifPresent(r -> changes.addAll(r.changes()));
    }
    return all;
  }

  /**
   * Lets what was said in the same text and put right further down stand there switched off: its id
   * is only provisional, nobody could find it again.
   */
  public static List<Heard<ShowChange>> settled(List<Heard<ShowChange>> heard) {
    List<Heard<ShowChange>> all = new ArrayList<>(heard);
    for (int i = 0; i < all.size(); i++) {
      if (all.get(i) instanceof Heard.Understood<ShowChange> later) {
        String old = later.change().meta().replaces().orElse("");
        int at = old.isEmpty() ? -1 : index(all, old, i);
        if (at >= 0) {
          Heard.Understood<ShowChange> before = (Heard.Understood<ShowChange>) all.get(at);
          ShowChange change = instead(later.change(), before.change());
          all.set(at, off(before));
          all.set(i, new Heard.Understood<>(later.said(), change, later.sentence()));
        }
      } else if (all.get(i) instanceof Heard.AskedBack<ShowChange> asked) {
        int here = i;
        boolean refers =
            asked.readings().stream()
                .flatMap(r -> r.changes().stream())
                .flatMap(c -> c.meta().replaces().stream())
                .anyMatch(old -> index(all, old, here) >= 0);
        if (refers) {
          all.set(
              i,
              new Heard.AskedBack<>(
                  asked.said(), asked.question(), List.of(), List.of(), asked.keep()));
        }
      }
    }
    return all;
  }

  private static int index(List<Heard<ShowChange>> all, String id, int before) {
    for (int i = 0; i < before; i++) {
      if (all.get(i) instanceof Heard.Understood<ShowChange> u
          && u.change().meta().id().equals(id)) {
        return i;
      }
    }
    return -1;
  }

  private static Heard<ShowChange> off(Heard.Understood<ShowChange> old) {
    return new Heard.Understood<>(
        old.said(),
        ChangesJson.readOne(ChangesJson.tree(old.change()).put("on", false)),
        old.sentence() + " Put right further down: it doesn't count.");
  }

  /** What came in the place of one put right stands for what that one stood for. */
  private static ShowChange instead(ShowChange change, ShowChange before) {
    ObjectNode alone = ChangesJson.tree(change).without("replaces");
    Optional<String> older = before.meta().replaces().filter(o -> !change.takesBack());
    return ChangesJson.readOne(older.map(o -> alone.put("replaces", o)).orElse(alone));
  }
}
