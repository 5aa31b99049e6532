package org.barmap.plan.change.effect;

import java.util.List;
import java.util.Optional;

/**
 * Everything a change does to a show; each component is empty where it does nothing of the sort.
 *
 * @param order the labels of these numbers in the order they are played, in the places where they
 *     stand in the book
 * @param silence why its number isn't played
 * @param leavesOut its bars are not played
 * @param added new bars after its bar
 * @param rounds how often its bars are played, or until when
 * @param course what becomes of the way through the number
 * @param inForce what holds from its first bar on
 * @param link how the next number follows its number
 */
public record Effects(
    Optional<List<String>> order,
    Optional<Silence> silence,
    boolean leavesOut,
    Optional<Added> added,
    Optional<Rounds> rounds,
    Course course,
    InForce inForce,
    Optional<Linked> link) {

  /** For a change that is only written into the book. */
  public static final Effects NONE = new Made().done();

  /** The bars are not played. */
  public static final Effects LEFT_OUT = new Made().leavesOut().done();

  /** Takes a defensive copy. */
  public Effects {
    order = order.map(List::copyOf);
  }

  /** Returns another order of numbers. */
  public static Effects order(List<String> numbers) {
    return new Made().order(numbers).done();
  }

  /** Returns a number that isn't played. */
  public static Effects silent(Silence silence) {
    return new Made().silence(silence).done();
  }

  /** Returns new bars. */
  public static Effects adding(Added added) {
    return new Made().added(added).done();
  }

  /** Returns bars played so often. */
  public static Effects going(Rounds rounds) {
    return new Made().rounds(rounds).done();
  }

  /** Returns another way through the number. */
  public static Effects on(Course course) {
    return new Made().course(course).done();
  }

  /** Returns something that holds from the first bar on. */
  public static Effects setting(InForce inForce) {
    return new Made().inForce(inForce).done();
  }

  /** Returns how the next number follows. */
  public static Effects linking(Linked link) {
    return new Made().link(link).done();
  }

  /** Effects in the making, for a change that does more than one thing. */
  public static final class Made {
    private Optional<List<String>> order = Optional.empty();
    private Optional<Silence> silence = Optional.empty();
    private boolean leavesOut;
    private Optional<Added> added = Optional.empty();
    private Optional<Rounds> rounds = Optional.empty();
    private Course course = Course.NOTHING;
    private InForce inForce = InForce.NOTHING;
    private Optional<Linked> link = Optional.empty();

    /** Puts numbers in another order. */
    public Made order(List<String> numbers) {
      order = Optional.of(numbers);
      return this;
    }

    /** Leaves the number out. */
    public Made silence(Silence why) {
      silence = Optional.of(why);
      return this;
    }

    /** Leaves the bars out. */
    public Made leavesOut() {
      leavesOut = true;
      return this;
    }

    /** Adds bars. */
    public Made added(Added bars) {
      added = Optional.of(bars);
      return this;
    }

    /** Plays the bars so often. */
    public Made rounds(Rounds howOften) {
      rounds = Optional.of(howOften);
      return this;
    }

    /** Takes another way through the number. */
    public Made course(Course way) {
      course = way;
      return this;
    }

    /** Puts something into force. */
    public Made inForce(InForce what) {
      inForce = what;
      return this;
    }

    /** Lets the next number follow so. */
    public Made link(Linked how) {
      link = Optional.of(how);
      return this;
    }

    /** Returns what was made. */
    public Effects done() {
      return new Effects(order, silence, leavesOut, added, rounds, course, inForce, link);
    }
  }
}
