package org.barmap.plan.words.talk;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;

/**
 * Tries a message in other words where those that were said left something open, and keeps what
 * came of it only where nothing is open any more.
 */
public final class Retelling {

  /** So many sentences of one message are read each by itself. */
  private static final int MOST_SENTENCES = 6;

  /** Nobody orders more in one breath and is understood. */
  private static final int MOST_TALK = 240;

  /** So many messages of a list are tried in other words; a longer one is no talk. */
  private static final int MOST_RETOLD = 100;

  private final Retold retold;
  private final Reader reader;
  private int retellings;

  /** Retells to a reader of plain words. */
  public Retelling(Retold retold, Reader reader) {
    this.retold = retold;
    this.reader = reader;
  }

  /**
   * What was known at a moment.
   *
   * @param heard so much was understood or asked till then
   * @param next the next change's number
   * @param number the number that is spoken of
   * @param named whether it was named
   */
  public record State(int heard, int next, Optional<WrittenNumber> number, boolean named) {}

  /** Reads plain words, one message after another, and can go back to what was known before. */
  public interface Reader {
    /** Returns what is known now. */
    State state();

    /** Goes back to what was known, and takes what was heard since then away. */
    void back(State to);

    /** Goes on from there as if this had been heard. */
    void again(List<Heard<ShowChange>> heard, State after);

    /** Returns what was heard since then; as it is, not a copy. */
    List<Heard<ShowChange>> since(State before);

    /** Reads words as they stand. */
    void plainly(String words);

    /**
     * Makes all that was heard since then a question where something in the message asks for it.
     */
    void doubt(String message, State before);

    /** Returns the sentences of a message. */
    List<String> sentences(String figures);

    /** Whether a sentence about the number spoken of only says why, or what the others do. */
    boolean aside(String sentence);
  }

  /** Reads a message once it was heard, and in other words where something is open. */
  public void read(String line, String figures) {
    State before = reader.state();
    reader.plainly(line);
    boolean talk = line.length() <= MOST_TALK;
    if (!sure(before) && talk && retellings++ < MOST_RETOLD) {
      retold(line, figures, before);
    }
  }

  /** Whether a message came to changes, and nothing of it to a question. */
  private boolean sure(State before) {
    List<Heard<ShowChange>> those = reader.since(before);
    return noQuestion(those)
        && those.stream()
            .flatMap(h -> h.reading().stream())
            .flatMap(r -> r.changes().stream())
            .anyMatch(c -> c.kept().isEmpty());
  }

  private static boolean noQuestion(List<Heard<ShowChange>> those) {
    return those.stream().allMatch(h -> h instanceof Heard.Understood<ShowChange>);
  }

  /** In other words, where those that were said left something open. */
  private void retold(String line, String figures, State before) {
    Outcome asked = outcome(before);
    for (String way : retold.of(figures)) {
      if (way.equals(line)) {
        continue;
      }
      reader.back(before);
      reader.plainly(way);
      reader.doubt(line, before);
      if (sure(before)) {
        return;
      }
      Outcome other = outcome(before);
      asked = asked.bare() && other.offers() ? other : asked;
    }
    reader.back(before);
    if (bySentence(line, figures, before)) {
      return;
    }
    reader.back(before);
    reader.again(asked.heard(), asked.after());
  }

  /** Each sentence in the words in which it is understood, or kept where it only says why. */
  private boolean bySentence(String line, String figures, State before) {
    List<String> sentences = reader.sentences(figures);
    if (sentences.size() < 2 || sentences.size() > MOST_SENTENCES) {
      return false;
    }
    if (!sentences.stream().allMatch(this::understood)) {
      return false;
    }
    reader.doubt(line, before);
    return sure(before);
  }

  private boolean understood(String sentence) {
    State start = reader.state();
    for (String way : retold.of(sentence)) {
      reader.back(start);
      reader.plainly(way);
      boolean spokenOf = reader.state().number().isPresent();
      if (sure(start) || spokenOf && noQuestion(reader.since(start)) && reader.aside(way)) {
        return true;
      }
    }
    return false;
  }

  /** What became of a message. */
  private record Outcome(List<Heard<ShowChange>> heard, State after) {
    /** Whether nothing of it is a change, and none is among what may be meant. */
    boolean bare() {
      return heard.stream()
          .flatMap(
              h ->
                  h instanceof Heard.AskedBack<ShowChange> asked
                      ? asked.readings().stream()
                      : h.reading().stream())
          .flatMap(r -> r.changes().stream())
          .allMatch(c -> c.kept().isPresent());
    }

    /** Whether all of it is asked, and a change is among what may be meant. */
    boolean offers() {
      return heard.stream().allMatch(h -> h instanceof Heard.AskedBack)
          && heard.stream()
              .flatMap(h -> ((Heard.AskedBack<ShowChange>) h).readings().stream())
              .flatMap(r -> r.changes().stream())
              .anyMatch(c -> c.kept().isEmpty());
    }
  }

  private Outcome outcome(State before) {
    return new Outcome(List.copyOf(reader.since(before)), reader.state());
  }
}
