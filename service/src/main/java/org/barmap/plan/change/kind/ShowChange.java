package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.KeptWords;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Leave;
import org.barmap.plan.change.term.Link;

/**
 * One thing the show does differently from the printed book.
 *
 * <p>Bars are named by addresses as players say them, see {@link org.barmap.plan.change.Address};
 * {@code number} is the label of the musical number, empty where the book has only one. The
 * components of a kind are its keys in {@code changes/1}, in that order.
 */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
public sealed interface ShowChange
    permits ShowChange.OfBars,
        ShowChange.FromBar,
        ShowChange.OfNumber,
        Gradual,
        Hold,
        Insert,
        JumpTo,
        Note,
        Reorder,
        Restore,
        Tempo,
        Transpose {

  /**
   * Returns the readers of instructions for one number, in the order they are asked; the first that
   * understands one has it, so broad patterns come last.
   */
  static List<Wording<ShowChange>> wordings() {
    return List.of(
        Note.WORDING,
        InPass.Only.WORDING,
        Restore.WORDING,
        JumpTo.Again.WORDING,
        JumpTo.Without.WORDING,
        Track.WORDING,
        Tacet.WORDING,
        InPass.Not.WORDING,
        CutNumber.WORDING,
        LinkChange.WORDING,
        Play.REPEATED,
        Play.ONCE,
        Vamp.WORDING,
        Safety.WORDING,
        JumpTo.Jump.WORDING,
        Cut.WORDING,
        Play.WORDING,
        Tempo.LED,
        Gradual.Rit.WORDING,
        Gradual.Back.WORDING,
        Gradual.Said.WORDING,
        Hold.Held.WORDING,
        Hold.Pause.WORDING,
        Transpose.WORDING,
        MeterChange.WORDING,
        KeyChange.WORDING,
        Insert.WORDING,
        Beats.WORDING,
        Tempo.WORDING,
        Instrument.WORDING,
        Remind.WORDING);
  }

  /** Returns a change that puts an instrument into the hands from a bar on. */
  static ShowChange instrument(String number, String first, String to) {
    return new Instrument(Meta.of("instrument-" + number), number, first, to);
  }

  /** Returns a change that says how the next number follows a number. */
  static ShowChange link(String number, Link how) {
    return new LinkChange(
        Meta.of("link-" + number),
        number,
        how,
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /**
   * Returns the changes of single numbers it stands for; itself where it is about one.
   *
   * @param night the labels of the numbers in the order they are played
   */
  default List<ShowChange> parts(List<String> night) {
    return List.of(this);
  }

  /** Returns id, switch, date, author and note. */
  Meta meta();

  /** Returns the label of the number it is about; empty where the change names none. */
  String number();

  /** Returns the word of the format for this kind of change. */
  default String kind() {
    return getClass().getAnnotation(JsonTypeName.class).value();
  }

  /** Returns the bars it is about; empty where it is about a whole number or the whole show. */
  Optional<Stretch> where();

  /** Returns what it does. */
  Effects effects();

  /** Returns what is written into the book; empty where its effects say that alone. */
  Optional<Marking> marking();

  /** Returns it as a cut list says it, without the number, on one line: "cut 34 to 49". */
  String says();

  /** Tells whether {@link #says} holds the note already. */
  default boolean saysItsNote() {
    return false;
  }

  /** Tells whether it does nothing but take an earlier change back. */
  default boolean takesBack() {
    return false;
  }

  /** Returns it with bars it adds said to be a rest, or music; itself where it adds none. */
  default ShowChange asRest(boolean rest) {
    return this;
  }

  /**
   * Returns what changes are called when one speaks of them later, as regular expressions, and the
   * kinds that each may be.
   */
  static Map<String, Set<String>> nouns() {
    return Map.ofEntries(
        Map.entry("cut|chop|omission", Set.of("cut", "cut-number", "jump")),
        Map.entry("jump|leap", Set.of("jump", "cut")),
        Map.entry("vamp", Set.of("vamp")),
        Map.entry("safety", Set.of("safety")),
        Map.entry("repeat|repetition|tag|extra time", Set.of("play")),
        Map.entry("hold|fermata|pause|wait", Set.of("hold", "gp")),
        Map.entry("g\\.? ?p\\.?|general pause|dead stop|stop", Set.of("gp")),
        Map.entry("insert|insertion|(?:extra|added|new|empty) bars?", Set.of("insert")),
        Map.entry("rit\\.?|rall\\.?|ritardando|rallentando", Set.of("rit")),
        Map.entry("accel\\.?|accelerando", Set.of("accel")),
        Map.entry("tempo(?: change)?|speed", Set.of("tempo", "tempo-word")),
        Map.entry("meter|time signature|time change", Set.of("meter")),
        Map.entry("key(?: change)?|transposition", Set.of("key", "transpose")),
        Map.entry("tacet", Set.of("not", "tacet")),
        Map.entry("running order|new order|reorder", Set.of("order")),
        Map.entry("attacca|segue", Set.of("link")),
        Map.entry("note|reminder", Set.of("note", "remind")));
  }

  /** Returns what takes an earlier change back. */
  static ShowChange takingBack(Meta meta, ShowChange earlier) {
    return Restore.takingBack(meta, earlier);
  }

  /** Returns bars played so often in all. */
  static ShowChange played(Meta meta, String number, String first, String last, int times) {
    return new Play(meta, number, first, last, times);
  }

  /** Returns an order of numbers. */
  static ShowChange order(Meta meta, List<String> numbers) {
    return new Reorder(meta, numbers);
  }

  /** Returns bars that are played, or not played, in one pass. */
  static Optional<ShowChange> inPass(String number, String first, String last, PassRule rule) {
    Meta meta = Meta.of("pass-" + first);
    return rule.does() == PassRule.Does.NOT
        ? Optional.of(new InPass.Not(meta, number, first, last, rule.pass()))
        : rule.pass().map(p -> new InPass.Only(meta, number, first, last, p));
  }

  /** Returns bars held open, left at the end of a pass. */
  static ShowChange heldOpen(Meta meta, String number, boolean safety, String first, String last) {
    return safety
        ? new Safety(meta, number, first, last)
        : new Vamp(meta, number, first, last, Leave.END_OF_PASS);
  }

  /**
   * Returns the same change of other bars, where it is a change that is asked about by its bars.
   */
  default Optional<ShowChange> over(String first, String last) {
    return Optional.empty();
  }

  /** Returns the words that it keeps for people to read; nothing follows from such a change. */
  default Optional<KeptWords> kept() {
    return Optional.empty();
  }

  /** A change of bars from a first to a last one, both included. */
  sealed interface OfBars extends ShowChange
      permits Cut, Vamp, Safety, Play, Beats, InPass, MeterChange {

    /** Returns the address of the first bar. */
    String first();

    /** Returns the address of the last bar. */
    String last();

    @Override
    default Optional<Stretch> where() {
      return Optional.of(new Stretch(first(), last()));
    }
  }

  /** A change at a bar or from a bar on, without a last bar. */
  sealed interface FromBar extends ShowChange permits KeyChange, Instrument, Remind {

    /** Returns the address of the bar. */
    String first();

    @Override
    default Optional<Stretch> where() {
      return Optional.of(Stretch.at(first()));
    }
  }

  /** A change of a whole number. */
  sealed interface OfNumber extends ShowChange permits Whole, LinkChange {

    @Override
    default Optional<Stretch> where() {
      return Optional.empty();
    }
  }

  /** A change of a whole number of which nothing more is said. */
  sealed interface Whole extends OfNumber permits Tacet, CutNumber, Track, JumpTo.Again {

    /**
     * What is the same of every change of a kind.
     *
     * @param effects what it does
     * @param marking what is written into the book
     * @param says how a cut list says it
     */
    record Same(Effects effects, Marking marking, String says) {}

    /** Returns what is the same of every change of its kind. */
    Same same();

    @Override
    default Effects effects() {
      return same().effects();
    }

    @Override
    default Optional<Marking> marking() {
      return Optional.of(same().marking());
    }

    @Override
    default String says() {
      return same().says();
    }
  }
}
