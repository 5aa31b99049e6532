package org.barmap.plan.words;

import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.barmap.map.BarMap;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.term.InstrumentNames;
import org.barmap.plan.words.bar.Scope;
import org.barmap.plan.words.number.Mentions;

/** The numbers of a book, as words are looked up in them; made once for a whole list. */
final class Numbers {
  private final List<WrittenNumber> all;
  private final Names names;
  private final Mentions mentions;
  private final String chair;
  private final String title;
  private final Map<WrittenNumber, Scope> scopes = new IdentityHashMap<>();

  Numbers(BarMap map) {
    this.all = List.copyOf(WrittenNumber.all(map));
    this.names = new Names(all);
    this.mentions = new Mentions(all);
    this.chair = InstrumentNames.chairOf(map.book().part());
    this.title = Spoken.plain(map.book().title()).toLowerCase(Locale.ROOT);
  }

  List<WrittenNumber> all() {
    return all;
  }

  Names names() {
    return names;
  }

  Mentions mentions() {
    return mentions;
  }

  /** Returns the only number of a book. */
  Optional<WrittenNumber> only() {
    return all.size() == 1 ? Optional.of(all.get(0)) : Optional.empty();
  }

  /** Returns the number that a label is about; in a book of one it may have none. */
  Optional<WrittenNumber> labelled(String label) {
    return label.isEmpty() && all.size() == 1 ? only() : names.byLabel(label);
  }

  Scope scope(WrittenNumber of) {
    return scopes.computeIfAbsent(of, n -> new Scope(n, chair));
  }

  Called called(WrittenNumber of, Supplier<Meta> meta) {
    return new Called(scope(of), meta);
  }

  /** A line that starts with the show's name and says nothing about a number is a heading. */
  boolean heads(String line) {
    boolean shows = title.length() > 2 && line.toLowerCase(Locale.ROOT).startsWith(title);
    return shows && !names.titled(line) && !Sentences.hasVerb(line);
  }
}
