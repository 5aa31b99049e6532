package org.barmap.plan.change;

import java.util.List;
import java.util.Optional;

/**
 * One thing the show does differently from the printed book.
 *
 * <p>Bars are named by addresses as players say them, see {@link Address}; {@code number} is the
 * label of the musical number, empty where the book has only one. Ranges include both ends.
 */
public sealed interface ShowChange
    permits Ranged,
        ShowChange.Insert,
        ShowChange.Tacet,
        ShowChange.CutNumber,
        ShowChange.Reorder,
        ShowChange.Tempo,
        ShowChange.KeyChange,
        ShowChange.Instrument,
        ShowChange.Remind {

  /** Returns id, switch, date, author and note. */
  Meta meta();

  /** Returns the label of the number it is about; empty where the change names none. */
  String number();

  /** Returns the word of the format for this kind of change. */
  String kind();

  /** Returns the address of the first bar concerned, where there is one. */
  default Optional<String> firstAddress() {
    return Optional.empty();
  }

  /** Returns the address of the last bar concerned, where there is one. */
  default Optional<String> lastAddress() {
    return firstAddress();
  }

  /** Bars left out, both ends included; addresses may name beats. */
  record Cut(Meta meta, String number, String first, String last) implements Ranged {
    @Override
    public String kind() {
      return "cut";
    }
  }

  /** Bars repeated until the cue. */
  record Vamp(Meta meta, String number, String first, String last, Leave leave) implements Ranged {
    @Override
    public String kind() {
      return "vamp";
    }
  }

  /** Bars repeated only if the director says so. */
  record Safety(Meta meta, String number, String first, String last) implements Ranged {
    @Override
    public String kind() {
      return "safety";
    }
  }

  /** Bars played {@code times} times in all; 1 takes a printed repeat away. */
  record Play(Meta meta, String number, String first, String last, int times) implements Ranged {
    @Override
    public String kind() {
      return "play";
    }
  }

  /** New bars after a bar; {@code label} names the first of them, where it has a name. */
  record Insert(Meta meta, String number, String after, int bars, Optional<String> label)
      implements ShowChange {
    @Override
    public String kind() {
      return "insert";
    }

    @Override
    public Optional<String> firstAddress() {
      return Optional.of(after);
    }
  }

  /** The number is in the show, the player doesn't play in it. */
  record Tacet(Meta meta, String number) implements ShowChange {
    @Override
    public String kind() {
      return "tacet";
    }
  }

  /** The number is not in the show. */
  record CutNumber(Meta meta, String number) implements ShowChange {
    @Override
    public String kind() {
      return "cut-number";
    }
  }

  /**
   * The numbers named are played in this order, in the places where they stand in the book; the
   * others stay.
   */
  record Reorder(Meta meta, List<String> numbers) implements ShowChange {
    /** Takes a defensive copy. */
    public Reorder {
      numbers = List.copyOf(numbers);
    }

    @Override
    public String number() {
      return "";
    }

    @Override
    public String kind() {
      return "order";
    }
  }

  /**
   * A tempo from a bar on, until the next tempo; or from one tempo to another by and by.
   *
   * @param beat note value of the beat as a share of a whole note, "1/4", "3/8"
   * @param perMinute beats a minute
   * @param last the last bar of a change by and by
   * @param toPerMinute beats a minute after it
   */
  record Tempo(
      Meta meta,
      String number,
      String first,
      String beat,
      double perMinute,
      Optional<String> last,
      Optional<Double> toPerMinute)
      implements ShowChange {

    /** Makes a tempo that stays. */
    public Tempo(Meta meta, String number, String first, String beat, double perMinute) {
      this(meta, number, first, beat, perMinute, Optional.empty(), Optional.empty());
    }

    @Override
    public Optional<String> lastAddress() {
      return last.or(this::firstAddress);
    }

    @Override
    public String kind() {
      return "tempo";
    }

    @Override
    public Optional<String> firstAddress() {
      return Optional.of(first);
    }
  }

  /**
   * A key from a bar on, until the next signature in the book.
   *
   * @param fifths sharps counted up, flats counted down, -7 to 7
   */
  record KeyChange(Meta meta, String number, String first, int fifths) implements ShowChange {
    @Override
    public String kind() {
      return "key";
    }

    @Override
    public Optional<String> firstAddress() {
      return Optional.of(first);
    }
  }

  /** How many beats the director shows in each of these bars. */
  record Beats(Meta meta, String number, String first, String last, int beats) implements Ranged {
    @Override
    public String kind() {
      return "beats";
    }
  }

  /** The instrument to have ready at a bar. */
  record Instrument(Meta meta, String number, String first, String to) implements ShowChange {
    @Override
    public String kind() {
      return "instrument";
    }

    @Override
    public Optional<String> firstAddress() {
      return Optional.of(first);
    }
  }

  /** A reminder at a bar; its words are in the note. */
  record Remind(Meta meta, String number, String first, Reminder what) implements ShowChange {
    @Override
    public String kind() {
      return "remind";
    }

    @Override
    public Optional<String> firstAddress() {
      return Optional.of(first);
    }
  }
}
