package org.barmap.work;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.library.Library;
import org.barmap.library.Material;
import org.barmap.library.PageState;
import org.barmap.library.Saved;
import org.barmap.library.SecondCard;
import org.barmap.library.Versioned;
import org.barmap.map.BarMap;
import org.barmap.map.SecondReading;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.SecondEvidence;
import org.barmap.sign.ReadPage;
import org.barmap.sign.StoredPage;

/**
 * Settles a whole book from what is stored of its pages and its second reading, and lays it under
 * what people have set. What changes meanwhile in the pages or the second reading is not lost: the
 * store takes only what was computed from what there is, else it is computed again. One at a time,
 * so that a person who attaches a second reading is not overtaken by every page that is read.
 */
public final class Settling {

  private static final System.Logger LOG = System.getLogger(Settling.class.getName());

  /** So often a book is settled at once when its pages change under way. */
  private static final int TRIES = 5;

  private static final String NO_MUSIC = "The new picture shows no music; the old page stays";

  private final Library library;
  private final PageReader reader;
  private final Events events;

  Settling(Library library, PageReader reader, Events events) {
    this.library = library;
    this.reader = reader;
    this.events = events;
  }

  /**
   * Settles a book; nothing happens while no page of it is read.
   *
   * @return false when its pages changed again and again meanwhile; it is to be settled later
   */
  synchronized boolean settle(String book) {
    for (int left = TRIES; left > 0; left--) {
      Optional<Versioned<Draft>> now = library.drafts().find(book);
      Material from = library.readings().material(book);
      Optional<BarMap> fresh = now.flatMap(d -> fresh(book, d.value(), from, from.second()));
      if (fresh.isEmpty()) {
        return true;
      }
      Saved<Draft> saved = library.readings().lay(book, from, fresh.get());
      if (saved instanceof Saved.Done<Draft> done) {
        events.mapChanged(book, done.now().revision());
      }
      if (!(saved instanceof Saved.Stale)) {
        return true;
      }
    }
    return false;
  }

  /**
   * Gives a book a second reading, or takes it away, and settles the book with what it has then.
   *
   * @param revision the revision the person saw
   * @param second empty to take it away
   * @return the new draft; stale when someone else was faster, and then nothing was changed
   */
  public synchronized Saved<Draft> second(String book, long revision, Optional<SecondCard> second) {
    return kept(
        book,
        revision,
        (now, from) ->
            library
                .readings()
                .laySecond(book, revision, from, second, fresh(book, now, from, second)));
  }

  /**
   * Puts a page that was photographed again into the place of the old one.
   *
   * @param revision the revision the person saw
   * @param old id of the page whose place it takes
   * @param made id of the page of the new picture
   * @return refused when the new picture shows no music
   */
  public synchronized Saved<Draft> retake(String book, long revision, String old, String made) {
    return kept(
        book,
        revision,
        (now, from) -> {
          if (old.equals(made) || !showsMusic(book, made)) {
            return new Saved.Refused<>(List.of(NO_MUSIC));
          }
          Material then = new Material(swapped(from.pages(), old, made), from.second());
          Optional<BarMap> fresh = fresh(book, now, then, from.second());
          return fresh.isEmpty()
              ? new Saved.Refused<>(List.of(NO_MUSIC))
              : library.readings().retake(book, revision, from, old, made, fresh.get());
        });
  }

  /** Works out what a person asked for and keeps it, unless what it is made from has changed. */
  private interface Attempt {
    Saved<Draft> keep(Draft now, Material from);
  }

  /** Tries again while pages change meanwhile; a draft of another revision is left as it is. */
  private Saved<Draft> kept(String book, long revision, Attempt attempt) {
    Saved<Draft> saved = new Saved.Stale<>(revision);
    for (int left = TRIES; left > 0 && saved instanceof Saved.Stale; left--) {
      Optional<Versioned<Draft>> now = library.drafts().find(book);
      if (now.isEmpty()) {
        return new Saved.Refused<>(List.of("There is no such book"));
      }
      if (now.get().revision() != revision) {
        return new Saved.Stale<>(now.get().revision());
      }
      saved = attempt.keep(now.get().value(), library.readings().material(book));
    }
    if (saved instanceof Saved.Done<Draft> done) {
      events.mapChanged(book, done.now().revision());
    }
    return saved;
  }

  private boolean showsMusic(String book, String page) {
    return library
        .pages()
        .find(book, page)
        .filter(p -> p.state() == PageState.READ)
        .flatMap(p -> library.pages().reading(p.id()).map(r -> StoredPage.read(r, p.index())))
        .filter(p -> !p.systems().isEmpty())
        .isPresent();
  }

  private static List<Material.Kept> swapped(List<Material.Kept> pages, String old, String made) {
    List<Material.Kept> then = new ArrayList<>(pages);
    then.removeIf(p -> p.page().equals(made));
    pages.stream()
        .filter(p -> p.page().equals(made))
        .forEach(m -> then.replaceAll(p -> p.page().equals(old) ? m : p));
    return then;
  }

  /** The whole book settled anew; empty while nothing is read. */
  private Optional<BarMap> fresh(
      String book, Draft now, Material from, Optional<SecondCard> second) {
    List<ReadPage> read = new ArrayList<>();
    for (int i = 0; i < from.pages().size(); i++) {
      int index = i + 1;
      from.pages().get(i).reading().ifPresent(json -> read.add(StoredPage.read(json, index)));
    }
    if (read.isEmpty()) {
      return Optional.empty();
    }
    BarMap settled = reader.settle(now.map().book(), read);
    return Optional.of(second.flatMap(s -> with(book, s, settled)).orElse(settled));
  }

  private Optional<BarMap> with(String book, SecondCard card, BarMap settled) {
    SecondEvidence evidence =
        SecondFile.isAnotherReaders(card.file())
            ? SecondEvidence.ofSamePages()
            : SecondEvidence.trusted();
    return part(book, card).map(p -> evidence.settle(settled, p, Fixed.NOTHING));
  }

  /** The part that is this chair's; empty while none is chosen or its file can't be read. */
  private Optional<SecondReading.Part> part(String book, SecondCard card) {
    if (card.part().isEmpty()) {
      return Optional.empty();
    }
    try {
      SecondReading reading = SecondFile.read(library.pages().kept(book, card.file()));
      return reading.parts().stream().filter(p -> Objects.equals(p.id(), card.part())).findFirst();
    } catch (IOException | UncheckedIOException | UnreadableMusicXmlException e) {
      LOG.log(
          System.Logger.Level.WARNING, "the second reading of a book can't be read any more", e);
      return Optional.empty();
    }
  }
}
