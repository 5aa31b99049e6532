package org.barmap.library.sql;

import java.util.List;
import java.util.Optional;
import org.barmap.library.SecondCard;
import org.barmap.library.Seconds;
import org.barmap.map.json.BarMapJson;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** Second readings in a database. */
record SqlSeconds(Jdbi jdbi) implements Seconds {

  @Override
  public Optional<SecondCard> find(String book) {
    return jdbi.withHandle(h -> find(h, book));
  }

  static Optional<SecondCard> find(Handle h, String book) {
    return h.createQuery("select name, file, part, parts from second_reading where book = :book")
        .bind("book", book)
        .map(
            (row, context) ->
                new SecondCard(
                    row.getString("name"),
                    row.getString("file"),
                    row.getString("part"),
                    parts(row.getString("parts"))))
        .findOne();
  }

  private static List<SecondCard.PartCard> parts(String json) {
    return List.of(BarMapJson.mapper().readValue(json, SecondCard.PartCard[].class));
  }

  /** Gives a book a second reading, or takes it away. */
  static void set(Handle h, String book, Optional<SecondCard> card) {
    if (card.isEmpty()) {
      h.execute("delete from second_reading where book = ?", book);
      return;
    }
    h.createUpdate(
            """
            insert into second_reading (book, name, file, part, parts)
            values (:book, :name, :file, :part, :parts)
            on conflict (book) do update set name = excluded.name, file = excluded.file,
              part = excluded.part, parts = excluded.parts
            """)
        .bind("book", book)
        .bind("name", card.get().name())
        .bind("file", card.get().file())
        .bind("part", card.get().part())
        .bind("parts", Json.write(card.get().parts()))
        .execute();
  }
}
