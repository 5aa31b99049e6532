package org.barmap.library.sqlite.copy;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * What rows are copied without.
 *
 * @param tables left empty
 * @param rows by table, which of its rows go along, as SQL of both databases
 * @param values by {@code table.column}, what stands there instead, as SQL of both databases
 * @param texts by {@code table.column}, what is left of a text that is there
 */
public record Leaving(
    Set<String> tables,
    Map<String, String> rows,
    Map<String, String> values,
    Map<String, UnaryOperator<String>> texts) {

  /** Nothing is left out. */
  public static final Leaving NOTHING = new Leaving(Set.of(), Map.of(), Map.of(), Map.of());

  /** The name by which a shared store keeps which backup it came from. */
  public static final String PUT_BACK = "put-back";

  /** Why a web hook that came out of a backup is off. */
  private static final String HOOK_OFF =
      "It came back from a backup, which holds no secrets: remove it and register it again";

  /** Takes a defensive copy. */
  public Leaving {
    tables = Set.copyOf(tables);
    rows = Map.copyOf(rows);
    values = Map.copyOf(values);
    texts = Map.copyOf(texts);
  }

  /**
   * Returns what a backup is without. Whoever gets hold of one gets what people made, and nothing
   * that opens a door or speaks for us: hooks come without their secrets and with the machine of
   * their address only, since who knows the rest may often send there (common practice in web
   * hooks); and turned off, for a copy that is put back beside the first one would tell the same
   * programs the same things. Which process is at work, and answers kept for requests that may be
   * sent again, are of the moment.
   *
   * @param pictures whether the pictures of pages go along
   */
  public static Leaving ofBackup(boolean pictures) {
    Map<String, String> values = new HashMap<>();
    values.put("hook.secret", "''");
    values.put("hook.off", "coalesce(\"off\", '" + HOOK_OFF + "')");
    values.put("hook.failing_since", "null");
    values.put(
        "delivery.state",
        "case when \"state\" in ('waiting', 'sending') then 'dead' else \"state\" end");
    if (!pictures) {
      String open = "case when \"state\" in ('waiting', 'reading') then ";
      values.put("page.picture", "''");
      values.put("page.state", open + "'failed' else \"state\" end");
      values.put(
          "page.finding",
          open
              + "'It was not read when the backup was made, and came without its picture'"
              + " else \"finding\" end");
      values.put("upload.open", "0");
    }
    return new Leaving(
        Set.of("reply"),
        Map.of(
            "keeping",
            "\"name\" not in ('holder', 'clock-back', '"
                + PUT_BACK
                + "') and \"name\" not like 'process %'"),
        values,
        Map.of("hook.address", Leaving::machine));
  }

  /** Returns of an address which machine it leads to. */
  private static String machine(String address) {
    try {
      URI uri = new URI(address);
      return new URI(uri.getScheme(), null, uri.getHost(), uri.getPort(), "/", null, null)
          .toString();
    } catch (URISyntaxException e) {
      return "";
    }
  }

  String text(String table, String column, String text) {
    return Optional.ofNullable(texts.get(table + "." + column))
        .map(t -> t.apply(text))
        .orElse(text);
  }

  boolean isLeft(String table) {
    // what the engine of the queue keeps is of the moment: a start queues what is open anew
    return tables.contains(table) || table.startsWith("scheduled_");
  }

  String value(String table, String column) {
    return Optional.ofNullable(values.get(table + "." + column)).orElse('"' + column + '"');
  }

  String where(String table) {
    return Optional.ofNullable(rows.get(table)).map(r -> " where " + r).orElse("");
  }
}
