package org.barmap.library.sql;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.library.keep.Kept;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.picture.PictureStore;

/**
 * Compares the pictures that are kept with what is noted of them.
 *
 * @param books the folder of the books' folders
 */
record PictureCheck(Store store, Path books, PictureStore pictures) {

  private static final System.Logger LOG = System.getLogger(PictureCheck.class.getName());

  /** Takes pictures kept by an older program as they are now. */
  void noteOlder() {
    store
        .jdbi()
        .useTransaction(
            h ->
                h.createQuery(
                        """
                    select distinct book, picture from page p where picture <> '' and not exists
                      (select 1 from picture k where k.book = p.book and k.file = p.picture)
                    """)
                    .map((row, context) -> List.of(row.getString(1), row.getString(2)))
                    .list()
                    .forEach(
                        one ->
                            PictureMark.sizeOf(file(one.get(0), one.get(1)))
                                .ifPresent(m -> SqlPages.note(h, one.get(0), one.get(1), m))));
  }

  private Path file(String book, String name) {
    return books.resolve(book).resolve(name);
  }

  /** Returns the pictures of pages that are not there, or not as they were. */
  List<Kept.Missing> missing(Map<String, Long> sizes) {
    List<Kept.Missing> missing = new ArrayList<>();
    store
        .jdbi()
        .useHandle(
            h ->
                h.createQuery(
                        """
                    select b.id, b.title, b.part, p.picture, k.bytes,
                      row_number() over (partition by p.book order by p.position, p.rowid) as place
                    from page p join book b on b.id = p.book
                    left join picture k on k.book = p.book and k.file = p.picture
                    where p.aside = 0 order by b.rowid, place
                    """)
                    .map(
                        (row, context) -> {
                          String picture = row.getString("picture");
                          if (!picture.isEmpty()) {
                            Optional<Long> now =
                                Optional.ofNullable(sizes.get(row.getString("id") + "/" + picture));
                            String title = row.getString("title") + ", " + row.getString("part");
                            int place = row.getInt("place");
                            long bytes = row.getLong("bytes");
                            wrong(now, row.wasNull() ? Optional.empty() : Optional.of(bytes))
                                .ifPresent(w -> missing.add(new Kept.Missing(title, place, w)));
                          }
                          return picture;
                        })
                    .list());
    return missing;
  }

  /** The sizes of what is kept; nothing is said to be missing while they can't be told. */
  Optional<Map<String, Long>> sizes() {
    try {
      return Optional.of(pictures.sizes());
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "the pictures cannot be looked through", e);
      return Optional.empty();
    }
  }

  private static Optional<String> wrong(Optional<Long> now, Optional<Long> bytes) {
    if (now.isEmpty()) {
      return Optional.of("is missing");
    }
    return bytes.isEmpty() || bytes.equals(now)
        ? Optional.empty()
        : Optional.of("is damaged: it had " + bytes.get() + " bytes and has " + now.get());
  }
}
