package org.barmap.library.sql;

import java.time.Instant;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.library.BookCard;
import org.barmap.library.HistoryEntry;
import org.barmap.library.Job;
import org.barmap.library.Material;
import org.barmap.library.PageCard;
import org.barmap.map.json.BarMapJson;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.generic.GenericType;
import org.jdbi.v3.core.mapper.reflect.ConstructorMapper;

/**
 * Rows as records: a component takes the column of its name ({@code createdAt} takes {@code
 * created_at}), so a query names its columns after the components. Moments are kept as ISO text,
 * enums as their names in small letters.
 */
public final class Rows {

  private Rows() {}

  /** Returns the store, told of the records that rows are mapped to. */
  public static Jdbi mapped(Jdbi jdbi) {
    Stream.of(
            BookCard.class,
            PageCard.class,
            Job.class,
            HistoryEntry.class,
            Material.Kept.class,
            Log.Stored.class,
            Retakes.Retake.class,
            SqlChanges.Moment.class)
        .forEach(type -> jdbi.registerRowMapper(ConstructorMapper.factory(type)));
    jdbi.registerColumnMapper(
        Instant.class, (row, column, context) -> Instant.parse(row.getString(column)));
    jdbi.registerColumnMapper(
        new GenericType<Optional<Instant>>() {},
        (row, column, context) -> Optional.ofNullable(row.getString(column)).map(Instant::parse));
    return jdbi.registerColumnMapper(
        Retakes.Sheet.class,
        (row, column, context) ->
            BarMapJson.mapper().readValue(row.getString(column), Retakes.Sheet.class));
  }
}
