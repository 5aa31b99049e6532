package org.barmap.library.sql;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Draft;
import org.barmap.library.PageCard;
import org.barmap.library.Pages;
import org.barmap.library.Saved;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.picture.PictureStore;
import org.jdbi.v3.core.Handle;

/** Pages in a database, their pictures as files beside it. */
record SqlPages(
    Store store,
    Path root,
    PictureStore pictures,
    SqlDrafts drafts,
    Removal removal,
    SqlJobs.Row jobs)
    implements Pages {

  @Override
  public List<PageCard> all(String book) {
    return store.jdbi().withHandle(h -> all(h, book));
  }

  static List<PageCard> all(Handle h, String book) {
    return h.createQuery(
            """
            select id, source, width, height, state, finding, picture, part,
              row_number() over (order by position, rowid) as "index"
            from page where book = :book and aside = 0 order by position, rowid
            """)
        .bind("book", book)
        .mapTo(PageCard.class)
        .list();
  }

  @Override
  public Optional<PageCard> find(String book, String page) {
    return all(book).stream().filter(p -> p.id().equals(page)).findFirst();
  }

  @Override
  public List<PageCard> add(String book, List<NewPage> pages, Optional<String> upload) {
    Map<String, PictureMark> marks = new HashMap<>();
    for (NewPage page : pages) {
      if (!page.picture().isEmpty()) {
        Path file = folder(book).resolve(page.picture());
        PictureMark.of(file).ifPresent(mark -> marks.put(page.picture(), mark));
        if (Files.exists(file)) {
          keep(book, file);
        }
      }
    }
    return store.edit(
        book,
        h -> {
          marks.forEach((picture, mark) -> note(h, book, picture, mark));
          int position = all(h, book).size();
          List<String> ids = new ArrayList<>();
          for (NewPage page : pages) {
            position++;
            ids.add(insert(h, book, position, page, 1));
          }
          upload.ifPresent(
              id ->
                  h.createUpdate("update upload set open = 0 where id = :id")
                      .bind("id", id)
                      .execute());
          return all(h, book).stream().filter(p -> ids.contains(p.id())).toList();
        });
  }

  /** Keeps how a picture was, so that a damaged one can be told. */
  static void note(Handle h, String book, String picture, PictureMark mark) {
    h.createUpdate(
            """
            insert into picture (book, file, bytes, sha256) values (:book, :file, :bytes, :sha)
            on conflict (book, file) do update set bytes = excluded.bytes, sha256 = excluded.sha256
            """)
        .bind("book", book)
        .bind("file", picture)
        .bind("bytes", mark.bytes())
        .bind("sha", mark.sha256().isEmpty() ? null : mark.sha256())
        .execute();
  }

  @Override
  public Optional<PageCard> addPart(String book, String page, int part) {
    return steps().addPart(book, page, part).flatMap(id -> find(book, id));
  }

  private PageSteps steps() {
    return new PageSteps(drafts, removal);
  }

  static <T> Saved<T> gone() {
    return new Saved.Refused<>(List.of("There is no such page; it may have been taken out"));
  }

  static String insert(Handle h, String book, int position, NewPage page, int part) {
    String id = Ids.make();
    h.createUpdate(
            """
            insert into page (id, book, position, source, picture, part, width, height, state,
              finding)
            values (:id, :book, :position, :source, :picture, :part, :width, :height, :state,
              :finding)
            """)
        .bind("id", id)
        .bind("book", book)
        .bind("position", position)
        .bind("source", page.source())
        .bind("picture", page.picture())
        .bind("part", part)
        .bind("width", page.width())
        .bind("height", page.height())
        .bind("state", page.picture().isEmpty() ? "failed" : "waiting")
        .bind("finding", page.finding())
        .execute();
    return id;
  }

  @Override
  public Saved<Draft> remove(String book, long revision, String page) {
    return steps().remove(book, revision, page);
  }

  @Override
  public Saved<Draft> removePictures(String book, long revision) {
    return steps().removePictures(book, revision);
  }

  @Override
  public Saved<Draft> order(String book, long revision, List<String> pages) {
    return steps().order(book, revision, pages);
  }

  @Override
  public void begin(String page) {
    store
        .jdbi()
        .useTransaction(
            h ->
                h.createUpdate("update page set state = 'reading' where id = :id")
                    .bind("id", page)
                    .execute());
  }

  @Override
  public void read(String page, String reading, Optional<String> finding) {
    store
        .jdbi()
        .useTransaction(
            h ->
                h.createUpdate(
                        """
                    update page set state = 'read', reading = :reading,
                      reading_version = reading_version + 1, finding = :finding
                    where id = :id
                    """)
                    .bind("id", page)
                    .bind("reading", reading)
                    .bind("finding", finding)
                    .execute());
  }

  @Override
  public void fail(String page, String finding) {
    store
        .jdbi()
        .useTransaction(
            h ->
                h.createUpdate(
                        "update page set state = 'failed', finding = :finding where id = :id")
                    .bind("id", page)
                    .bind("finding", finding)
                    .execute());
  }

  @Override
  public Saved<Draft> again(String book, long revision, String page) {
    return drafts.along(
        book,
        (h, now) -> {
          if (now.revision() != revision) {
            return new Saved.Stale<>(now.revision());
          }
          int waiting =
              h.createUpdate(
                      """
                      update page set state = 'waiting', finding = null
                      where book = :book and aside = 0 and picture <> '' and picture =
                        (select p.picture from page p where p.id = :id and p.book = :book)
                      """)
                  .bind("id", page)
                  .bind("book", book)
                  .execute();
          if (waiting == 0) {
            return gone();
          }
          jobs.add(h, book);
          return drafts.unchanged(now, "Waits to be read again");
        });
  }

  @Override
  public Optional<String> reading(String page) {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery("select reading from page where id = :id and reading is not null")
                    .bind("id", page)
                    .mapTo(String.class)
                    .findOne());
  }

  @Override
  public boolean isReady() {
    return Files.isWritable(root.resolve("books"))
        && Files.isWritable(root.resolve("cache"))
        && pictures.isReady();
  }

  @Override
  public boolean isElsewhere() {
    return pictures.isElsewhere();
  }

  @Override
  public Path picture(String book, PageCard page) {
    return kept(book, page.picture());
  }

  @Override
  public void keep(String book, Path file) {
    try {
      pictures.keep(safe(book), file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public Path kept(String book, String file) {
    try {
      return pictures.bring(safe(book), file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void drop(String book, String file) {
    store.jdbi().useTransaction(h -> Removal.doom(h, safe(book) + "/" + file));
    removal.pages(Set.of());
  }

  @Override
  public Path folder(String book) {
    try {
      return Files.createDirectories(
          root.resolve("books").resolve(safe(book)), Closing.folder(root));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public Path cache() {
    return root.resolve("cache");
  }

  /** Keeps an id from naming another folder. */
  private static String safe(String book) {
    if (!book.matches("[a-z0-9]{1,40}")) {
      throw new IllegalArgumentException("no book id: " + book);
    }
    return book;
  }
}
