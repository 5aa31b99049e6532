package org.barmap.library.sql;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import tools.jackson.databind.node.ObjectNode;

/** The marks that stand in a book in pencil: one list a book. */
record WrittenMarks(Store store, SqlReplies replies) {

  List<ObjectNode> of(String book) {
    return store.jdbi().withHandle(h -> find(h, book)).orElse(List.of());
  }

  private static Optional<List<ObjectNode>> find(Handle h, String book) {
    return h.createQuery("select marks from book where id = :id and discarded_at is null")
        .bind("id", book)
        .mapTo(String.class)
        .findOne()
        .map(Json::objects);
  }

  List<ObjectNode> tick(String book, ObjectNode mark, boolean written) {
    return store.edit(
        book,
        h -> {
          List<ObjectNode> now = new ArrayList<>(find(h, book).orElse(List.of()));
          boolean there = now.stream().anyMatch(m -> key(m).equals(key(mark)));
          if (written && !there) {
            now.add(mark);
          } else if (!written) {
            now.removeIf(m -> key(m).equals(key(mark)));
          }
          h.createUpdate("update book set marks = :marks where id = :id")
              .bind("marks", Json.array(now))
              .bind("id", book)
              .execute();
          replies.made(h, 0);
          return now;
        });
  }

  /** Two marks of one kind at one bar are one. */
  private static String key(ObjectNode mark) {
    return mark.path("bar").asString("") + "/" + mark.path("mark").asString("");
  }
}
