package org.barmap.work;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Systems;
import org.barmap.edit.kind.PageCorrection.AddSystem;
import org.barmap.edit.kind.ReadLine;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Outline;
import org.barmap.sign.ReadPage;
import org.barmap.sign.kind.SignKind;

/**
 * Reads a line of music that a person drew a frame over, as one that was found is read: by the
 * networks, and reckoned with the other lines of its page.
 */
public record LineReading(Library library, PageReader reader, Events events) {

  private static final System.Logger LOG = System.getLogger(LineReading.class.getName());

  /** So often the book may become another one between its being looked at and written to. */
  private static final int TRIES = 5;

  /**
   * Reads it and adds it to the book. What others change meanwhile stays; the line is added to what
   * there is then.
   *
   * @param revision the revision the person saw
   * @param who may be empty
   * @param drawn on the page; where nothing can be read in it the line starts as one bar
   */
  public Saved<Draft> read(String book, PageCard page, long revision, String who, AddSystem drawn) {
    Optional<Versioned<Draft>> seen = library.drafts().find(book);
    if (seen.isEmpty() || seen.get().revision() != revision) {
      return new Saved.Stale<>(seen.map(Versioned::revision).orElse(revision));
    }
    List<String> wrong = drawn.validate(seen.get().value());
    if (!wrong.isEmpty()) {
      return new Saved.Refused<>(wrong);
    }
    tell(book, page, "running", "Reading the line drawn on page " + page.index());
    ReadLine line = read(seen.get().value(), book, page, drawn);
    Saved<Draft> saved = new Saved.Stale<>(revision);
    for (int left = TRIES; left > 0 && saved instanceof Saved.Stale; left--) {
      long now = library.drafts().find(book).map(Versioned::revision).orElse(revision);
      saved = library.drafts().readLine(book, now, who, line);
    }
    tell(book, page, "done", "The line drawn on page " + page.index() + " is read");
    return saved;
  }

  private void tell(String book, PageCard page, String state, String text) {
    int done = state.equals("done") ? 1 : 0;
    events.tell(book, "job", new JobView("line-" + page.id(), state, done, 1, text));
  }

  /** What the page says with the line on it; nothing where the line can't be read. */
  private ReadLine read(Draft draft, String book, PageCard page, AddSystem drawn) {
    Book of = draft.map().book();
    ReadLine nothing = new ReadLine(drawn, BarMap.of(of, List.of(), List.of(), List.of()), false);
    if (page.picture().isEmpty()) {
      return nothing;
    }
    try {
      Path picture = library.pages().picture(book, page);
      Outline frame = drawn.outline().orElseThrow();
      return reader
          .read(picture, page, frame)
          .map(p -> new ReadLine(drawn, reader.settle(of, List.of(p)), isHeaded(p, frame)))
          .orElse(nothing);
    } catch (ReadingStoppedException e) {
      throw e; // the line is not added; the person draws it again
    } catch (RuntimeException e) {
      LOG.log(System.Logger.Level.WARNING, "a line can't be read", e);
      return nothing;
    }
  }

  /** Tells whether the heading of a musical number, which has a figure, stands over the line. */
  private static boolean isHeaded(ReadPage page, Outline frame) {
    return page.systems().stream()
        .filter(l -> Systems.level(l.system().outline(), frame))
        .flatMap(l -> l.signs().stream())
        .anyMatch(s -> s.kind() == SignKind.HEADING && s.text().matches(".*\\d.*"));
  }
}
