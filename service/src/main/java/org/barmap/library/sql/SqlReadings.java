package org.barmap.library.sql;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.Repaging;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.merge.Merging;
import org.barmap.edit.merge.Retaken;
import org.barmap.library.Material;
import org.barmap.library.PageCard;
import org.barmap.library.Readings;
import org.barmap.library.Saved;
import org.barmap.library.SecondCard;
import org.barmap.library.Versioned;
import org.barmap.map.BarMap;
import org.jdbi.v3.core.Handle;

/** New readings of whole books, laid into their drafts. */
record SqlReadings(Store store, SqlDrafts drafts) implements Readings {

  private static final String READ = "Read again";

  @Override
  public Material material(String book) {
    // what is computed from it is kept only where it is still the same then: nobody has to wait
    return store.view(h -> material(h, book, "reading"));
  }

  /** What it is computed from, without the readings themselves, which are large. */
  private static Material named(Handle h, String book) {
    return material(h, book, "null");
  }

  private static Material material(Handle h, String book, String reading) {
    List<Material.Kept> pages =
        h.createQuery(
                """
                select id as page, reading_version as version, %s as reading from page
                where book = :book and aside = 0 order by position, rowid
                """
                    .formatted(reading))
            .bind("book", book)
            .mapTo(Material.Kept.class)
            .list();
    return new Material(pages, SqlSeconds.find(h, book));
  }

  @Override
  public Saved<Draft> lay(String book, Material from, BarMap fresh) {
    return drafts.along(
        book,
        (h, now) ->
            from.isSameAs(named(h, book))
                ? drafts.next(h, book, now, Merging.read(now.value(), fresh), READ)
                : new Saved.Stale<>(now.revision()));
  }

  @Override
  public Saved<Draft> laySecond(
      String book,
      long revision,
      Material from,
      Optional<SecondCard> second,
      Optional<BarMap> fresh) {
    return drafts.along(
        book,
        (h, now) -> {
          if (now.revision() != revision || !from.isSameAs(named(h, book))) {
            return new Saved.Stale<>(now.revision());
          }
          SqlSeconds.set(h, book, second);
          return drafts.next(h, book, now, merged(now, fresh), READ);
        });
  }

  @Override
  public Saved<Draft> retake(
      String book, long revision, Material from, String old, String made, BarMap fresh) {
    return drafts.along(
        book,
        (h, now) -> {
          if (now.revision() != revision || !from.isSameAs(named(h, book))) {
            return new Saved.Stale<>(now.revision());
          }
          List<PageCard> pages = SqlPages.all(h, book);
          List<String> left =
              pages.stream().map(PageCard::id).filter(id -> !id.equals(made)).toList();
          int place = left.indexOf(old) + 1;
          if (place == 0 || left.size() == pages.size()) {
            return SqlPages.gone();
          }
          Map<Integer, Integer> indices = new HashMap<>();
          for (PageCard page : pages) {
            if (!page.id().equals(made)) {
              indices.put(page.index(), left.indexOf(page.id()) + 1);
            }
          }
          PageSteps.reposition(h, pages, indices);
          Draft before = Repaging.apply(now.value(), indices);
          Retaken retaken = Retaken.read(before, place, fresh);
          Retakes.Retake step =
              new Retakes.Retake(
                  old,
                  made,
                  place,
                  Retakes.Sheet.of(before, place),
                  Retakes.Sheet.of(retaken.draft(), place));
          boolean last = pages.get(pages.size() - 1).id().equals(made);
          return drafts.retaken(h, book, now, before, retaken, step, last);
        });
  }

  /** A book of which nothing is read keeps what it has. */
  private static Draft merged(Versioned<Draft> now, Optional<BarMap> fresh) {
    return Merging.read(now.value(), fresh.orElse(now.value().map()));
  }
}
