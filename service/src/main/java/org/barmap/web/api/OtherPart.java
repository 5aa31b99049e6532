package org.barmap.web.api;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.exchange.chair.ChairBars;
import org.barmap.exchange.chair.TheirBars;
import org.barmap.exchange.chair.TheirWords;
import org.barmap.exchange.chair.TwoParts;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.Settings;
import org.barmap.map.BarMap;
import org.barmap.plan.change.kind.ShowChange;

/**
 * The book that lies beside another one, see {@link Settings.Director}.
 *
 * @param card of the other book
 * @param here the map of this one
 * @param there the map of the other
 * @param parts the two laid beside each other
 */
public record OtherPart(BookCard card, BarMap here, BarMap there, TwoParts parts) {

  /** Returns what lies beside a book; empty where nothing does, or it is on the shelf no more. */
  public static Optional<OtherPart> of(Library library, String book) {
    return library.books().settings(book).director().flatMap(d -> of(library, book, d));
  }

  /** Returns a book laid beside another one. */
  public static Optional<OtherPart> of(Library library, String book, Settings.Director director) {
    Optional<BarMap> here = library.drafts().find(book).map(d -> d.value().map());
    Optional<BarMap> there = library.drafts().find(director.book()).map(d -> d.value().map());
    Optional<BookCard> card = library.books().find(director.book());
    return here.flatMap(
        h -> there.flatMap(t -> card.map(c -> new OtherPart(c, h, t, parts(h, t, director)))));
  }

  private static TwoParts parts(BarMap here, BarMap there, Settings.Director director) {
    return TwoParts.of(
        here,
        there,
        director.pins().stream()
            .map(p -> new TwoParts.Pin(p.number(), p.here(), p.there()))
            .toList());
  }

  /**
   * Returns what the bars of changes are called in the other part, where otherwise, by their ids.
   */
  public Map<String, String> spans(List<ShowChange> changes) {
    ChairBars bars = new ChairBars(parts);
    Map<String, String> said = new LinkedHashMap<>();
    for (ShowChange change : changes) {
      Optional<String> here = change.where().map(w -> ChairBars.span(w.first(), w.last()));
      bars.span(change)
          .filter(span -> !here.equals(Optional.of(span)))
          .ifPresent(span -> said.put(change.meta().id(), span));
    }
    return said;
  }

  /** Returns what reads words that go by the other part's bars. */
  public TheirWords words() {
    return new TheirWords(new TheirBars(parts, name()), there);
  }

  /** Returns what the other part is called. */
  public String name() {
    String title = card.title().isBlank() ? "the other part" : card.title();
    return card.part().isBlank() ? title : card.part();
  }
}
