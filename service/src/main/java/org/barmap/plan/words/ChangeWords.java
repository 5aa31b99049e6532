package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.BarMap;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.term.InstrumentNames;
import org.barmap.plan.words.clause.Sense;
import org.barmap.plan.words.doubt.Backwards;
import org.barmap.plan.words.doubt.Doubted;
import org.barmap.plan.words.doubt.WhichShows;
import org.barmap.plan.words.earlier.Before;
import org.barmap.plan.words.earlier.Known;
import org.barmap.plan.words.grammar.Corrections;
import org.barmap.plan.words.grammar.Grammar;
import org.barmap.plan.words.grammar.Sounds;
import org.barmap.plan.words.grammar.Tidy;
import org.barmap.plan.words.number.Between;
import org.barmap.plan.words.number.Mentions;
import org.barmap.plan.words.talk.Days;
import org.barmap.plan.words.talk.Either;
import org.barmap.plan.words.talk.Idioms;
import org.barmap.plan.words.talk.Retelling;
import org.barmap.plan.words.talk.Retold;

/**
 * Reads a director's cut list.
 *
 * <p>One instruction a line, or several behind each other ("No. 7: cut 34 to 49, vamp B to B+1"). A
 * number is named once and holds until the next: "No. 7:", "7.", its title, or "No. 7 Low Tide".
 * What is no change at all is kept as a note; what looks like one and can't be followed is asked
 * back with the reason.
 */
public final class ChangeWords {
  /** A longer list is no cut list. */
  static final int MOST_LINES = 2000;

  /** A longer line is no instruction. */
  private static final int MOST_LETTERS = 400;

  /** So many instructions of one list are tried in every number, when none is named. */
  private static final int MOST_TRIED = 600;

  private static final Pattern LINES = Pattern.compile("[\\r\\n;\\u2028\\u2029\\u0085]+");
  private static final Pattern CUT_ONE =
      phrase("(?:cut|omit|skip|drop|lose)\\s+(\\d{1,4}[A-Za-z]{0,2})");

  /** A number that isn't in the book, or one of several. */
  private static final Pattern OTHER_NUMBER =
      phrase("(?:\\b(?:no|nr)\\.|\\bnumber|#)\\s*\\d|\\bnos\\b");

  private final String book;
  private final String chair;
  private static final Optional<WrittenNumber> NONE = Optional.empty();

  private final List<WrittenNumber> numbers;
  private final Mentions mentions;
  private final Names names;
  private final Retelling retelling;
  private final Before before;
  private final Optional<String> today;
  private final Map<WrittenNumber, Scope> scopes = new IdentityHashMap<>();
  private final List<Heard<ShowChange>> heard = new ArrayList<>();
  private Optional<WrittenNumber> number = Optional.empty();
  private String showing = "";
  private boolean named;
  private int next;
  private int tried;

  private ChangeWords(BarMap map, Known known) {
    this.numbers = WrittenNumber.all(map);
    this.names = new Names(numbers);
    this.mentions = new Mentions(numbers);
    Retold retold = new Retold(l -> names.byLabel(l).map(WrittenNumber::label), names.titles());
    Plainly plainly = new Plainly();
    this.retelling = new Retelling(retold, plainly);
    this.before = new Before(known, plainly, retold, mentions, this::labelled, Spoken::figures);
    this.next = known.free();
    this.today = known.today();
    this.chair = InstrumentNames.chairOf(map.book().part());
    this.book = Spoken.plain(map.book().title()).toLowerCase(Locale.ROOT);
    if (numbers.size() == 1) {
      this.number = Optional.of(numbers.get(0));
    }
  }

  /**
   * Returns what was understood of a text and what is asked back, in the order it was said, where
   * nothing is known of what was said before.
   */
  public static List<Heard<ShowChange>> understand(BarMap map, String text) {
    return understand(map, text, Known.NOTHING);
  }

  /** Returns what was understood of a text and what is asked back, in the order it was said. */
  public static List<Heard<ShowChange>> understand(BarMap map, String text, Known known) {
    ChangeWords words = new ChangeWords(map, known);
    String[] lines = LINES.split(Before.joined(text), MOST_LINES + 1);
    for (int i = 0; i < lines.length && i < MOST_LINES; i++) {
      words.typed(lines[i]);
    }
    if (lines.length > MOST_LINES) {
      words.heard.add(
          new Heard.AskedBack<>(
              "",
              "The list has more than " + MOST_LINES + " lines; the rest was not read.",
              List.of()));
    }
    return Before.settled(words.before.told(words.heard));
  }

  private void typed(String typed) {
    int start = heard.size();
    String line = understood(typed);
    List<Heard<ShowChange>> those = heard.subList(start, heard.size());
    List<Heard<ShowChange>> all =
        Backwards.of(line, WhichShows.of(line, those, today, names.titles().keySet()));
    if (!all.equals(those)) {
      those.clear();
      all.forEach(h -> heard.add(keepable(h, "n" + next++)));
    }
  }

  /** Reads a line; returns it as it was read. */
  private String understood(String typed) {
    if (typed.length() > MOST_LETTERS) {
      String start = Spoken.plain(typed.substring(0, 40)) + "\u2026";
      heard.add(
          new Heard.AskedBack<>(
              start,
              "This line is longer than anything said in one breath; say it in several.",
              List.of()));
      return "";
    }
    String dated = Days.over(Idioms.digits(Spoken.plain(typed)), today);
    String figures = Spoken.figures(dated);
    String idiom = Idioms.over(figures);
    String message = Tidy.message(idiom.equals(figures) ? dated : idiom);
    String said = message.replaceFirst("^[-*\\u2022]\\s+|^[*\\u2022]", "").strip();
    String line =
        TwoBars.neighbours(
            Corrections.over(Corrections.corrected(said) ? Spoken.figures(said) : said));
    if (line.isEmpty() || heading(line)) {
      return "";
    }
    Optional<List<Heard<ShowChange>>> earlier =
        before.read(line, number.map(WrittenNumber::label), named);
    if (earlier.isPresent()) {
      earlier.get().forEach(this::add);
      return line;
    }
    List<String> either = Either.ways(line);
    if (either.isEmpty()) {
      retelling.read(line, Spoken.figures(line));
    } else {
      either(line, either);
    }
    return line;
  }

  /** Two ways of which nobody has said which it is; where neither is understood, as it was said. */
  private void either(String line, List<String> ways) {
    Plainly plainly = new Plainly();
    Retelling.State start = plainly.state();
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (String way : ways) {
      retelling.read(way, Spoken.figures(way));
      List<Heard<ShowChange>> those = plainly.since(start);
      those.stream()
          .filter(h -> those.size() == 1)
          .flatMap(h -> h.reading().stream())
          .filter(r -> r.changes().stream().allMatch(c -> c.kept().isEmpty()))
          .forEach(readings::add);
      plainly.back(start);
    }
    if (readings.isEmpty()) {
      retelling.read(line, Spoken.figures(line));
      return;
    }
    boolean all = readings.size() >= ways.size(); // one way alone is no choice
    add(new Heard.AskedBack<>(line, "Which of the two?", all ? List.of() : ways, readings));
  }

  private Optional<Before.Of> labelled(String label) {
    Optional<WrittenNumber> of =
        label.isEmpty() && numbers.size() == 1 ? Optional.of(numbers.get(0)) : names.byLabel(label);
    return of.map(n -> new Before.Of(n.label(), Kept.start(scope(n)), called(n)));
  }

  private void plainly(String line) {
    int before = heard.size();
    if (!whole(line)) {
      for (String sentence : Sentences.of(line)) {
        Lines.of(sentence, names).forEach(l -> line(mentioned(l)));
      }
    }
    doubted(line, heard.subList(before, heard.size()));
  }

  /** Reads as it stands, for {@link Retelling}. */
  private final class Plainly implements Retelling.Reader {
    @Override
    public Retelling.State state() {
      return new Retelling.State(heard.size(), next, number, named);
    }

    @Override
    public void back(Retelling.State to) {
      since(to).clear();
      next = to.next();
      number = to.number();
      named = to.named();
    }

    @Override
    public void again(List<Heard<ShowChange>> those, Retelling.State after) {
      heard.addAll(those);
      next = after.next();
      number = after.number();
      named = after.named();
    }

    @Override
    public List<Heard<ShowChange>> since(Retelling.State before) {
      return heard.subList(before.heard(), heard.size());
    }

    @Override
    public void plainly(String words) {
      ChangeWords.this.plainly(words);
    }

    @Override
    public void doubt(String message, Retelling.State before) {
      doubted(message, since(before));
    }

    @Override
    public List<String> sentences(String figures) {
      return Sentences.of(figures);
    }

    @Override
    public boolean aside(String sentence) {
      return Sense.aside(sentence, called(number.orElseThrow()));
    }
  }

  /** What could make a message mean something else makes all of it a question. */
  private void doubted(String line, List<Heard<ShowChange>> those) {
    if (numbers.isEmpty() || those.isEmpty()) {
      return;
    }
    Called bars = called(number.orElse(numbers.get(0)));
    List<Heard<ShowChange>> all =
        Doubted.of(line, those, bars, Kept.theShow(line, Meta.of("n" + next)));
    those.clear();
    those.addAll(all);
  }

  /** A message of several sentences that lean on each other, about one number. */
  private boolean whole(String typed) {
    String line = mentions.figures(typed);
    List<Mentions.Mention> all = mentions.in(line, named);
    Optional<String> two = Between.line(line, all);
    if (two.isPresent()) {
      line(two.get());
      return true;
    }
    List<String> labels = all.stream().map(Mentions.Mention::label).distinct().toList();
    Optional<WrittenNumber> of =
        labels.size() == 1 ? names.byLabel(labels.get(0)) : labels.isEmpty() ? number : NONE;
    String rest = Mentions.without(line, all);
    boolean open =
        rest.isBlank()
            || Mentions.beside(line, all)
            || Showings.ahead(line).isPresent()
            || OTHER_NUMBER.matcher(rest).find()
            || (!named && labels.isEmpty() && CUT_ONE.matcher(line).matches());
    Optional<List<String>> parts =
        of.filter(n -> !open)
            .filter(n -> called(n).first(rest).isEmpty())
            .flatMap(n -> called(n).known(rest));
    if (parts.isEmpty()) {
      return false;
    }
    named |= !labels.isEmpty();
    number = of;
    Called called = called(of.get());
    parts.get().forEach(one -> add(about(scope(number.get()), called.heard(one, rest))));
    return true;
  }

  /** Puts the number first that a sentence names anywhere in it. */
  private String mentioned(String typed) {
    String line = mentions.figures(typed);
    List<Mentions.Mention> all = mentions.in(line, named);
    List<String> labels = all.stream().map(Mentions.Mention::label).distinct().toList();
    Optional<String> two = Between.line(line, all);
    if (two.isPresent()) {
      return two.get();
    }
    Optional<WrittenNumber> of = labels.size() == 1 ? names.byLabel(labels.get(0)) : NONE;
    String rest = Mentions.without(line, all);
    boolean known =
        !Mentions.beside(line, all)
            && of.filter(n -> called(n).known(rest).isPresent()).isPresent();
    return known ? "No. " + labels.get(0) + ": " + rest : typed;
  }

  /** A line that starts with the show's name and says nothing about a number is a heading. */
  private boolean heading(String line) {
    boolean shows = book.length() > 2 && line.toLowerCase(Locale.ROOT).startsWith(book);
    return shows && heard.isEmpty() && !names.titled(line) && !Sentences.hasVerb(line);
  }

  private void line(String typed) {
    showing = "";
    String line = NumberFirst.of(ahead(typed), names, named);
    if (line.isBlank()) {
      add(
          new Heard.AskedBack<>(
              typed, "Say it with each change, as in \"cut 5 to 8" + showing + "\".", List.of()));
      return;
    }
    Optional<Heard<ShowChange>> order =
        Orders.read(line, numbers, "n" + next)
            .or(() -> NumberJumps.read(line, numbers, number, "n" + next));
    if (order.isPresent()) {
      add(order.get());
      return;
    }
    Names.Named said = names.read(LinkLines.numberFirst(Frames.number(line), numbers, number));
    if (said.unknown().isPresent()) {
      add(
          new Heard.AskedBack<>(
              line, "There is no No. " + said.unknown().get() + " in this book.", names.labels()));
      number = Optional.empty();
      return;
    }
    if (said.number().isPresent()) {
      number = said.number();
      named = true;
    }
    String rest = Grammar.turned(ahead(said.rest()));
    List<String> all =
        Grammar.whole(rest) || number.filter(n -> called(n).complete(rest).isPresent()).isPresent()
            ? List.of(rest)
            : Sentences.instructions(Frames.places(rest));
    for (String one : all) {
      instruction(one + showing);
    }
  }

  /** Takes off the front of a line in which shows all of it holds. */
  private String ahead(String line) {
    Optional<Showings.Ahead> ahead = Showings.ahead(line);
    showing = ahead.map(a -> ", " + a.when()).orElse(showing);
    return ahead.map(Showings.Ahead::rest).orElse(line);
  }

  private void instruction(String words) {
    Meta meta = Meta.of("n" + next);
    if (!named) {
      Optional<Heard<ShowChange>> either = numberOrBar(words, meta);
      if (either.isPresent()) {
        add(either.get());
        return;
      }
    }
    if (number.isEmpty()) {
      add(whichNumber(words, meta));
      return;
    }
    Scope scope = scope(number.get());
    Called called = called(number.get());
    Optional<Heard<ShowChange>> open = called.first(words);
    if (open.isPresent()) {
      add(about(scope, open.get()));
      return;
    }
    Optional<List<String>> complete = called.complete(words);
    if (complete.isPresent()) {
      complete.get().forEach(one -> add(about(scope, called.heard(one, words))));
      return;
    }
    for (String one : Said.parts(words, w -> Sentences.spread(scope, w), called::one)) {
      for (String part : called.parts(one)) {
        add(about(scope, said(scope, called, part, one)));
      }
    }
  }

  /** As it was said; where that is no change, in other words that say the same. */
  private Heard<ShowChange> said(Scope scope, Called called, String words, String typed) {
    return called
        .one(words)
        .map(h -> words.equals(typed) ? h : Said.as(h, typed))
        .orElseGet(() -> Kept.left(scope, words, Meta.of("n" + next), called.nearest(words)));
  }

  private Called called(WrittenNumber of) {
    Scope scope = scope(of);
    return new Called(scope, w -> read(scope, w, Meta.of("n" + next)), () -> Meta.of("n" + next));
  }

  private Optional<Heard<ShowChange>> read(Scope scope, String words, Meta meta) {
    return TwoBars.read(scope, words, w -> one(scope, w, meta)).or(() -> one(scope, words, meta));
  }

  private static Optional<Heard<ShowChange>> one(Scope scope, String words, Meta meta) {
    Optional<Heard<ShowChange>> plain = new Instruction(scope, words, words, meta).read();
    String figures = Spoken.figures(words);
    if (figures.equals(words)
        || plain.filter(h -> h instanceof Heard.Understood<ShowChange>).isPresent()) {
      return plain;
    }
    return new Instruction(scope, figures, words, meta).read().or(() -> plain);
  }

  private Scope scope(WrittenNumber of) {
    return scopes.computeIfAbsent(of, n -> new Scope(n, chair));
  }

  /** "Cut 7" is number 7 or bar 7, where nobody said which number is spoken of. */
  private Optional<Heard<ShowChange>> numberOrBar(String words, Meta meta) {
    Matcher one = CUT_ONE.matcher(words);
    Optional<WrittenNumber> whole = one.matches() ? names.byLabel(one.group(1)) : Optional.empty();
    if (whole.isEmpty()) {
      return Optional.empty();
    }
    String label = whole.get().label();
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    Optional<Heard<ShowChange>> cut = read(scope(whole.get()), "cut", meta);
    cut.flatMap(Heard::reading).ifPresent(readings::add);
    readings.addAll(inNumbers(words, meta));
    return readings.size() == 1
        ? cut
        : Optional.of(
            new Heard.AskedBack<>(
                words, "No. " + label + ", or bar " + label + "?", List.of(), readings));
  }

  private Heard<ShowChange> whichNumber(String words, Meta meta) {
    List<Heard.Reading<ShowChange>> readings = inNumbers(words, meta);
    if (!readings.isEmpty() || Sentences.hasVerb(words) || Sounds.formal(words)) {
      return new Heard.AskedBack<>(
          words,
          "Which number is this for?",
          readings.isEmpty() ? names.labels() : List.of(),
          readings);
    }
    return Kept.ofTheShow(words, meta);
  }

  /** What the words would mean in each number that understands them. */
  private List<Heard.Reading<ShowChange>> inNumbers(String words, Meta meta) {
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    List<WrittenNumber> those = number.map(List::of).orElse(numbers);
    for (WrittenNumber each : those) {
      if (readings.size() == PlanFinding.MOST_NUMBERS || tried++ > MOST_TRIED) {
        break;
      }
      NumberJumps.read(words, numbers, Optional.of(each), meta.id())
          .or(() -> read(scope(each), words, meta))
          .flatMap(Heard::reading)
          .ifPresent(readings::add);
    }
    return readings;
  }

  /** Whoever reads it again must know the number, and may keep it as a note. */
  private Heard<ShowChange> about(Scope scope, Heard<ShowChange> one) {
    String label = scope.number().label();
    String words = label.isEmpty() ? one.said() : "No. " + label + ": " + one.said();
    if (one instanceof Heard.Understood<ShowChange> understood) {
      return understood.about(words);
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) one;
    return asked.about(words, Kept.note(scope, one.said(), Meta.of("n" + next)));
  }

  private void add(Heard<ShowChange> one) {
    heard.add(keepable(one, "n" + next));
    next++;
  }

  /** What is asked may always be kept as a note. */
  private static Heard<ShowChange> keepable(Heard<ShowChange> one, String id) {
    return one instanceof Heard.AskedBack<ShowChange> asked && asked.keep().isEmpty()
        ? asked.about(one.said(), Kept.theShow(one.said(), Meta.of(id)))
        : one;
  }
}
