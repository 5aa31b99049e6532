package org.barmap.plan.cases;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Navigation;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;

/** What stands before a bar in the notation and belongs to it. */
final class Pending {
  private final List<Navigation> signs = new ArrayList<>();
  private final List<Word> words = new ArrayList<>();
  private Optional<RehearsalMark> mark = Optional.empty();

  List<Navigation> signs() {
    return signs;
  }

  List<Word> words() {
    return words;
  }

  Optional<RehearsalMark> mark() {
    return mark;
  }

  void mark(RehearsalMark value) {
    mark = Optional.of(value);
  }

  boolean isEmpty() {
    return signs.isEmpty() && words.isEmpty() && mark.isEmpty();
  }
}
