package org.barmap.plan.words.doubt;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.clause.Sense;
import org.barmap.plan.words.grammar.Bars;
import org.barmap.plan.words.grammar.Grammar;
import org.barmap.plan.words.grammar.Meant;
import org.barmap.plan.words.grammar.Sounds;

/**
 * Asks about a message as a whole where what was made of it may not be all that it says.
 *
 * @param changes what was made of it
 * @param bars the number it is about
 */
public record Doubted(List<ShowChange> changes, Bars bars) implements Doubts.Made {

  /** Takes a defensive copy. */
  public Doubted {
    changes = List.copyOf(changes);
  }

  /** What somebody wants kept, in so many words. */
  private static final Pattern A_NOTE = phrase("(?:.{0,60}:\\s*)?(?:note|remember|remind)\\b.*");

  /** Each by itself. */
  private static final Pattern SENTENCES = Pattern.compile("[.!?]\\s+\\p{Lu}");

  private static final Pattern AS_PRINTED =
      phrase("(?:(?!\\bnot\\b).)*\\bas\\s+(?:printed|written)(?:\\s+in\\s+the\\s+book)?[.!]?");

  /** Nothing else than what the change beside it comes to. */
  private static final Pattern ENDING_LAST =
      phrase(
          "(?:the\\s+)?(?:second|2nd|last|final)\\s+ending\\s+(?:on\\s+)?the\\s+last\\s+time(?:\\s+only)?[.!]?");

  private static final Pattern GO_ON =
      phrase(
          "(?:(?:at|from)\\s+the\\s+end\\s+of\\s+\\S+\\s+)?(?:we\\s+|you\\s+)?(?:just\\s+|simply\\s+)?(?:carry\\s+on|go\\s+on|continue|keep\\s+going|play\\s+on)(?:\\s+(?:in|to|into)+\\s+\\S+)?[.!]?");
  private static final Pattern A_REST =
      phrase(
          "(?:it's|it\\s+is|they're|that's|all)\\s+(?:just\\s+|only\\s+)?(?:(?:an?|one)\\s+)?(?:empty|silent|bars?(?:'s?)?(?:\\s+of)?\\s+rests?|rests?)(?:\\s+bars?)?[.!]?");
  private static final Pattern FROM =
      phrase(
          "(?:that's|it's|this\\s+is)\\s+(?:only\\s+|just\\s+)?from\\s+(?:letter\\s+|bar\\s+)?(\\S+?)(?:\\s+only|\\s+on(?:wards)?)?[.!]?");

  /** Kinds of jump, and of bars that come in, as {@code changes/1} calls them. */
  private static final String JUMPS = "jump|without|repeats-after-jump";

  private static final String ADDS = "insert";
  private static final Pattern IN_PASS = phrase("\\b(?:time|pass|D\\.[CS])\\b");

  private static final String QUESTION =
      "Part of this was not understood. Is it a change? Say it in other words, or keep it as a note.";

  /**
   * Returns what was made of a message, or the question about it.
   *
   * @param said the message
   * @param heard what was made of it
   * @param bars the number it is about
   * @param note what would keep it
   */
  public static List<Heard<ShowChange>> of(
      String said, List<Heard<ShowChange>> all, Bars bars, ShowChange note) {
    List<Heard<ShowChange>> heard = once(all, bars);
    if (A_NOTE.matcher(said).matches() || heard.stream().allMatch(Doubted::question)) {
      return List.copyOf(heard);
    }
    List<ShowChange> changes =
        heard.stream()
            .flatMap(h -> h.reading().stream())
            .flatMap(r -> r.changes().stream())
            .toList();
    Optional<String> doubt = Doubts.about(said, new Doubted(changes, bars));
    if (doubt.isPresent()) {
      boolean putRight = doubt.get().equals(Doubts.PUT_RIGHT);
      Heard<ShowChange> one = asked(said, doubt.get(), putRight ? List.of() : heard, note);
      return List.of(PrintedVamp.instead(one, changes, bars, note));
    }
    boolean leans = heard.stream().anyMatch(Doubted::question) && !SENTENCES.matcher(said).find();
    if (leans && changes.stream().anyMatch(c -> c.kept().isEmpty())) {
      return List.of(asked(said, QUESTION, heard, note));
    }
    List<Heard<ShowChange>> left = heard.stream().filter(h -> left(h, changes, bars)).toList();
    if (left.isEmpty()) {
      return List.copyOf(heard);
    }
    boolean apart = left.stream().allMatch(h -> apart(h, changes));
    return apart
        ? heard.stream()
            .map(h -> left.contains(h) ? asked(h.said(), QUESTION, List.of(h), note) : h)
            .toList()
        : List.of(asked(said, QUESTION, heard, note));
  }

  /** The same cut, said again in other words, is one. */
  private static List<Heard<ShowChange>> once(List<Heard<ShowChange>> all, Bars bars) {
    List<Heard<ShowChange>> kept = new ArrayList<>();
    for (Heard<ShowChange> each : all) {
      boolean again = kept.stream().anyMatch(k -> same(k, each, bars));
      if (!again) {
        kept.add(each);
      }
    }
    return kept;
  }

  private static boolean same(Heard<ShowChange> one, Heard<ShowChange> other, Bars bars) {
    if (question(one) || question(other)) {
      return false;
    }
    ShowChange first = one.reading().orElseThrow().changes().get(0);
    ShowChange second = other.reading().orElseThrow().changes().get(0);
    boolean cuts = first.kind().equals("cut") && second.kind().equals("cut");
    if (!cuts || !first.number().equals(second.number()) || inPass(first) || inPass(second)) {
      return false;
    }
    Stretch a = first.where().orElseThrow();
    Stretch b = second.where().orElseThrow();
    boolean beats = (a.first() + a.last() + b.first() + b.last()).contains("beat");
    return !beats
        && bars.slot(a.first()).isPresent()
        && bars.slot(a.first()).equals(bars.slot(b.first()))
        && bars.slot(a.last()).equals(bars.slot(b.last()));
  }

  private static boolean question(Heard<ShowChange> heard) {
    return heard instanceof Heard.AskedBack;
  }

  /** Whether a note speaks of the form, and not of how it is played. */
  private static boolean left(Heard<ShowChange> heard, List<ShowChange> all, Bars bars) {
    return heard.reading().stream()
        .flatMap(r -> r.changes().stream())
        .flatMap(c -> c.kept().stream())
        .filter(k -> !k.errata())
        .map(k -> k.text())
        .anyMatch(
            k ->
                !AS_PRINTED.matcher(k).matches()
                    && !known(k, bars)
                    && !Sense.aside(k, bars)
                    && !(any(all, "play") && ENDING_LAST.matcher(k).matches())
                    && !(any(all, JUMPS) && GO_ON.matcher(k).matches())
                    && !(any(all, ADDS) && A_REST.matcher(k).matches())
                    && !said(k, all, bars)
                    && (Sounds.formal(k) || !Sounds.style(k) && Sense.formal(k, bars)));
  }

  /** Whether the grammar knows it as nothing that changes what is played. */
  private static boolean known(String words, Bars bars) {
    return Grammar.read(words, bars).stream().anyMatch(m -> m instanceof Meant.Remark);
  }

  /** "That's from A only", where the change begins at A. */
  private static boolean said(String words, List<ShowChange> all, Bars bars) {
    Matcher from = FROM.matcher(words);
    return from.matches()
        && all.stream()
            .filter(c -> c.kind().equals("tempo"))
            .flatMap(c -> c.where().stream())
            .map(w -> bars.slot(w.first()))
            .anyMatch(s -> s.isPresent() && s.equals(bars.slot(from.group(1))));
  }

  /** Whether a note is about another number than everything that changes. */
  private static boolean apart(Heard<ShowChange> heard, List<ShowChange> all) {
    List<String> notes =
        heard.reading().stream()
            .flatMap(r -> r.changes().stream())
            .map(ShowChange::number)
            .toList();
    return all.stream().filter(c -> c.kept().isEmpty()).noneMatch(c -> notes.contains(c.number()));
  }

  private static Heard<ShowChange> asked(
      String said, String question, List<Heard<ShowChange>> heard, ShowChange note) {
    List<Heard.Reading<ShowChange>> parts =
        heard.stream().flatMap(h -> h.reading().stream()).toList();
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    parts.stream()
        .filter(
            r -> parts.size() == 2 && r.changes().stream().anyMatch(c -> c.kind().equals("hold")))
        .filter(r -> parts.stream().anyMatch(p -> any(p.changes(), "without")))
        .forEach(readings::add);
    if (parts.stream().anyMatch(r -> r.changes().stream().anyMatch(c -> c.kept().isEmpty()))) {
      readings.add(
          new Heard.Reading<>(
              parts.stream().map(Heard.Reading::says).collect(Collectors.joining(" ")),
              parts.stream().flatMap(r -> r.changes().stream()).toList()));
    }
    readings.add(new Heard.Reading<>("keep it as a note, nothing else", List.of(note)));
    return new Heard.AskedBack<ShowChange>(said, question, List.of(), readings).about(said, note);
  }

  private static boolean any(List<ShowChange> changes, String kinds) {
    return changes.stream().anyMatch(c -> c.kind().matches(kinds));
  }

  private static boolean all(List<ShowChange> changes, String kinds) {
    return changes.stream().allMatch(c -> c.kind().matches(kinds));
  }

  @Override
  public boolean waits() {
    return any(changes, "safety|vamp|hold|gp|only|not|link");
  }

  @Override
  public boolean restores() {
    return any(changes, "restore");
  }

  @Override
  public boolean orders() {
    return any(changes, "order");
  }

  @Override
  public boolean counts() {
    return any(changes, "play|vamp|safety|only|not|" + JUMPS + "|" + ADDS)
        || changes.stream().anyMatch(c -> any(List.of(c), "cut|hold|gp") && inPass(c));
  }

  private static boolean inPass(ShowChange cut) {
    return IN_PASS.matcher(cut.says()).find();
  }

  @Override
  public boolean cuts() {
    return any(changes, "cut");
  }

  @Override
  public boolean vampsTwice() {
    return changes.size() == 1 && all(changes, "vamp") && bars.open("vamp").isPresent();
  }

  @Override
  public boolean adds() {
    return any(changes, ADDS);
  }

  @Override
  public boolean notes() {
    return changes.stream().allMatch(c -> c.kept().isPresent());
  }

  @Override
  public boolean silences() {
    return changes.size() > 1 && all(changes, "not");
  }

  @Override
  public boolean rests() {
    return any(changes, "not");
  }

  @Override
  public boolean tempos() {
    return any(changes, "tempo");
  }

  @Override
  public boolean several() {
    return changes.stream().filter(c -> c.kept().isEmpty()).count() > 1;
  }

  @Override
  public boolean cutsTwice() {
    List<ShowChange> cuts =
        changes.stream()
            .filter(c -> c.kind().equals("cut") && c.where().isPresent() && !inPass(c))
            .toList();
    for (int i = 0; i < cuts.size(); i++) {
      for (int k = i + 1; k < cuts.size(); k++) {
        Stretch one = cuts.get(i).where().orElseThrow();
        Stretch other = cuts.get(k).where().orElseThrow();
        if (cuts.get(i).number().equals(cuts.get(k).number())
            && from(one) <= to(other)
            && from(other) <= to(one)) {
          return true;
        }
      }
    }
    return false;
  }

  @Override
  public boolean dated() {
    return changes.stream()
        .filter(c -> c.kept().isEmpty())
        .allMatch(c -> c.meta().until().isPresent() || c.meta().since().isPresent());
  }

  @Override
  public boolean movesHold() {
    return changes.size() == 2 && any(changes, "hold") && any(changes, "without");
  }

  @Override
  public boolean cutsAndPlays() {
    for (int i = 0; i < changes.size(); i++) {
      ShowChange cut = changes.get(i);
      boolean out = cut.kind().equals("cut") && !inPass(cut) && cut.where().isPresent();
      for (int k = i + 1; out && k < changes.size(); k++) {
        ShowChange other = changes.get(k);
        boolean plays = any(List.of(other), "vamp|safety|play|only");
        if (plays && other.number().equals(cut.number()) && other.where().equals(cut.where())) {
          return true;
        }
      }
    }
    return false;
  }

  private int from(Stretch cut) {
    return cut.first().equals("start") ? 0 : bars.slot(cut.first()).orElse(Integer.MAX_VALUE);
  }

  private int to(Stretch cut) {
    return cut.last().equals("start") ? 0 : bars.slot(cut.last()).orElse(-1);
  }
}
