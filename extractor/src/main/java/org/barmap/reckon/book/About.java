package org.barmap.reckon.book;

import java.util.Optional;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.solve.Solution.Choice;
import org.barmap.sign.kind.Sign;

/** What a step decides; {@code system} is an index into the lattice's systems. */
public sealed interface About {

  /** The system the step belongs to. */
  int system();

  /** Tells whether a choice bends what was read; unless told otherwise none does. */
  default boolean bends(Choice choice) {
    return false;
  }

  /** Hands a choice to whoever follows the path. */
  void take(Choice choice, Follower follower);

  /** Follows a path; one method for each kind of choice. */
  interface Follower {
    /** Counting started again, or went on. */
    void start(Start about, Choice choice);

    /** A system was missed, or none was. */
    void missed(Missed about, Choice choice);

    /** A printed number was passed. */
    void anchor(Anchor about, Choice choice);

    /** A rest was counted. */
    void rest(Rest about, Choice choice);

    /** Barlines were missed inside a cell, or none were. */
    void gap(Gap about, Choice choice);

    /** A candidate was a barline, or none. */
    void candidate(Candidate about, Choice choice);

    /** Counting went back to where an ending began. */
    void back(Back about, Choice choice);
  }

  /** Whether counting starts again at this system. */
  record Start(int system, Optional<Sign> heading) implements About {
    @Override
    public boolean bends(Choice choice) {
      return heading.isEmpty() && choice.after() != choice.before();
    }

    @Override
    public void take(Choice choice, Follower follower) {
      follower.start(this, choice);
    }
  }

  /** How many were missed, which none should be. */
  sealed interface Shifted extends About {
    @Override
    default boolean bends(Choice choice) {
      return choice.shift() > 0;
    }
  }

  /** Whether a system was missed before this one, and how many bars it had. */
  record Missed(int system) implements Shifted {
    @Override
    public void take(Choice choice, Follower follower) {
      follower.missed(this, choice);
    }
  }

  /** A printed number at the start of a cell. */
  record Anchor(int system, int cell, Sign sign) implements About {
    @Override
    public boolean bends(Choice choice) {
      return Marks.number(sign.text()) != choice.after();
    }

    @Override
    public void take(Choice choice, Follower follower) {
      follower.anchor(this, choice);
    }
  }

  /** How many bars a rest stands for; the shift is its count less one. */
  record Rest(int system, int cell, RestEvidence evidence) implements About {
    @Override
    public boolean bends(Choice choice) {
      return evidence.counts().keySet().stream()
          .findFirst()
          .filter(n -> n != choice.shift() + 1)
          .isPresent();
    }

    @Override
    public void take(Choice choice, Follower follower) {
      follower.rest(this, choice);
    }
  }

  /** How many barlines were missed inside a cell. */
  record Gap(int system, int cell) implements Shifted {
    @Override
    public void take(Choice choice, Follower follower) {
      follower.gap(this, choice);
    }
  }

  /** Whether a candidate is a barline; one before a lettered bar counts nothing either way. */
  record Candidate(int system, int line, boolean lettered) implements About {
    @Override
    public void take(Choice choice, Follower follower) {
      follower.candidate(this, choice);
    }
  }

  /** A later ending begins, numbered like the one before it. */
  record Back(int system, int cell) implements About {
    @Override
    public void take(Choice choice, Follower follower) {
      follower.back(this, choice);
    }
  }
}
