package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.words.bar.Scope;
import org.barmap.plan.words.talk.Retelling;

/** What came of a text so far, and the number that is spoken of: it holds until the next. */
final class Hearing {
  private final List<Heard<ShowChange>> heard = new ArrayList<>();
  private Optional<WrittenNumber> number;
  private boolean named;
  private int next;

  /**
   * Begins.
   *
   * @param number the only number of a book, which nobody has to name
   * @param next the number of the first change's id
   */
  Hearing(Optional<WrittenNumber> number, int next) {
    this.number = number;
    this.next = next;
  }

  List<Heard<ShowChange>> all() {
    return heard;
  }

  Optional<WrittenNumber> number() {
    return number;
  }

  /** Whether the number was named, and is not only the one of the book. */
  boolean named() {
    return named;
  }

  /** From here on a number is spoken of. */
  void about(WrittenNumber of) {
    number = Optional.of(of);
    named = true;
  }

  /** From here on this number is spoken of, where there is one; it was not named again. */
  void still(Optional<WrittenNumber> of) {
    number = of;
  }

  /** Returns the particulars of the next change that is heard. */
  Meta meta() {
    return Meta.of("n" + next);
  }

  void add(Heard<ShowChange> one) {
    heard.add(keepable(one, meta()));
    next++;
  }

  /** Adds what is about a number; whoever reads it again must know which. */
  void add(Scope scope, Heard<ShowChange> one) {
    String label = scope.number().label();
    String words = label.isEmpty() ? one.said() : "No. " + label + ": " + one.said();
    if (one instanceof Heard.Understood<ShowChange> understood) {
      add(understood.about(words));
      return;
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) one;
    add(asked.about(words, Kept.note(scope, one.said(), meta())));
  }

  /** What is asked may always be kept as a note. */
  private static Heard<ShowChange> keepable(Heard<ShowChange> one, Meta meta) {
    return one instanceof Heard.AskedBack<ShowChange> asked && asked.keep().isEmpty()
        ? asked.about(one.said(), Kept.theShow(one.said(), meta))
        : one;
  }

  /** Puts others in the place of what was heard since a moment. */
  void instead(int since, List<Heard<ShowChange>> others) {
    heard.subList(since, heard.size()).clear();
    others.forEach(this::add);
  }

  /** Returns what was heard since a moment; as it is, not a copy. */
  List<Heard<ShowChange>> since(int before) {
    return heard.subList(before, heard.size());
  }

  Retelling.State state() {
    return new Retelling.State(heard.size(), next, number, named);
  }

  /** Goes back to a moment. */
  void back(Retelling.State to) {
    since(to.heard()).clear();
    next = to.next();
    number = to.number();
    named = to.named();
  }

  /** Goes on as if this had been heard. */
  void again(List<Heard<ShowChange>> those, Retelling.State after) {
    heard.addAll(those);
    next = after.next();
    number = after.number();
    named = after.named();
  }
}
