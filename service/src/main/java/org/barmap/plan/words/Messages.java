package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.clause.Sense;
import org.barmap.plan.words.doubt.Doubted;
import org.barmap.plan.words.number.Between;
import org.barmap.plan.words.number.Mentions;
import org.barmap.plan.words.talk.Retelling;

/**
 * Reads what is said in one breath as it stands: all of it at once where its sentences lean on each
 * other, else sentence by sentence. What could make it mean something else makes a question of it.
 */
final class Messages implements Retelling.Reader {

  /** A number that isn't in the book, or one of several. */
  private static final Pattern OTHER_NUMBER =
      phrase("(?:\\b(?:no|nr)\\.|\\bnumber|#)\\s*\\d|\\bnos\\b");

  private final Numbers numbers;
  private final Hearing hearing;
  private final OneLine lines;

  Messages(Numbers numbers, Hearing hearing) {
    this.numbers = numbers;
    this.hearing = hearing;
    this.lines = new OneLine(numbers, hearing);
  }

  @Override
  public Retelling.State state() {
    return hearing.state();
  }

  @Override
  public void back(Retelling.State to) {
    hearing.back(to);
  }

  @Override
  public void again(List<Heard<ShowChange>> those, Retelling.State after) {
    hearing.again(those, after);
  }

  @Override
  public List<Heard<ShowChange>> since(Retelling.State before) {
    return hearing.since(before.heard());
  }

  @Override
  public void plainly(String words) {
    Retelling.State before = state();
    if (!whole(words)) {
      for (String sentence : Sentences.of(words)) {
        Lines.of(sentence, numbers.names()).forEach(l -> lines.read(mentioned(l)));
      }
    }
    doubt(words, before);
  }

  @Override
  public void doubt(String message, Retelling.State before) {
    List<Heard<ShowChange>> those = since(before);
    if (numbers.all().isEmpty() || those.isEmpty()) {
      return;
    }
    Called bars = called(hearing.number().orElse(numbers.all().get(0)));
    List<Heard<ShowChange>> all =
        new ArrayList<>(Doubted.of(message, those, bars, Kept.theShow(message, hearing.meta())));
    those.clear();
    those.addAll(all);
  }

  @Override
  public List<String> sentences(String figures) {
    return Sentences.of(figures);
  }

  @Override
  public boolean aside(String sentence) {
    return Sense.aside(sentence, called(hearing.number().orElseThrow()));
  }

  private Called called(WrittenNumber of) {
    return numbers.called(of, hearing::meta);
  }

  /** A message of several sentences that lean on each other, about one number. */
  private boolean whole(String typed) {
    Mentioned said = new Mentioned(typed);
    if (said.two().isPresent()) {
      lines.read(said.two().get());
      return true;
    }
    Optional<WrittenNumber> of = said.labels().isEmpty() ? hearing.number() : said.number();
    String rest = said.rest();
    boolean open =
        rest.isBlank()
            || said.beside()
            || Showings.ahead(said.line()).isPresent()
            || OTHER_NUMBER.matcher(rest).find()
            || (!hearing.named() && said.labels().isEmpty() && Unnamed.maybeNumber(said.line()));
    Optional<List<String>> parts =
        of.filter(n -> !open)
            .filter(n -> called(n).first(rest).isEmpty())
            .flatMap(n -> called(n).known(rest));
    if (parts.isEmpty()) {
      return false;
    }
    if (said.labels().isEmpty()) {
      hearing.still(of);
    } else {
      hearing.about(of.get());
    }
    Called called = called(of.get());
    parts.get().forEach(one -> hearing.add(called.scope(), called.heard(one, rest)));
    return true;
  }

  /** Puts the number first that a sentence names anywhere in it. */
  private String mentioned(String typed) {
    Mentioned said = new Mentioned(typed);
    if (said.two().isPresent()) {
      return said.two().get();
    }
    boolean known =
        !said.beside()
            && said.number().filter(n -> called(n).known(said.rest()).isPresent()).isPresent();
    return known ? "No. " + said.labels().get(0) + ": " + said.rest() : typed;
  }

  /** A sentence with the numbers that it names. */
  private final class Mentioned {
    private final String line;
    private final List<Mentions.Mention> all;
    private final List<String> labels;

    Mentioned(String typed) {
      this.line = numbers.mentions().figures(typed);
      this.all = numbers.mentions().in(line, hearing.named());
      this.labels = all.stream().map(Mentions.Mention::label).distinct().toList();
    }

    String line() {
      return line;
    }

    List<String> labels() {
      return labels;
    }

    /** Returns what it says of two numbers, or of what follows one. */
    Optional<String> two() {
      return Between.line(line, all);
    }

    /** Returns the only number that it names. */
    Optional<WrittenNumber> number() {
      return labels.size() == 1 ? numbers.names().byLabel(labels.get(0)) : Optional.empty();
    }

    /** Returns it without the words for the numbers. */
    String rest() {
      return Mentions.without(line, all);
    }

    boolean beside() {
      return Mentions.beside(line, all);
    }
  }
}
