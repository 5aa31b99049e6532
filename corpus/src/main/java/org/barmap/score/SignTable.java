package org.barmap.score;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/** Precision, recall, F1 and support of every kind of sign. */
public final class SignTable {

  /**
   * One kind of sign.
   *
   * @param sign its name
   * @param support how many the truth has
   * @param found how many were found
   * @param right how many of these are right
   */
  public record Row(String sign, long support, long found, long right) {

    /** Returns right over found, or 0 where nothing was found. */
    public double precision() {
      return found == 0 ? 0 : (double) right / found;
    }

    /** Returns right over support, or 0 where the truth has none. */
    public double recall() {
      return support == 0 ? 0 : (double) right / support;
    }

    /** Returns the harmonic mean of precision and recall. */
    public double f1() {
      return support + found == 0 ? 0 : 2.0 * right / (support + found);
    }
  }

  private SignTable() {}

  /** Returns the rows of a tally: systems and barlines first, then signs by name. */
  public static List<Row> of(Tally t) {
    List<Row> rows = new ArrayList<>();
    rows.add(new Row("system", t.get("sys_t"), t.get("sys_f"), t.get("sys_tp")));
    rows.add(new Row("barline", t.get("bl_t"), t.get("bl_f"), t.get("bl_tp")));
    rows.add(new Row("bar", t.get("be_t"), t.get("be_f"), t.get("be_tp")));
    rows.add(new Row("rest count", t.get("mr_t"), t.get("mr_f"), t.get("mr_ok")));
    rows.add(new Row("rehearsal mark", t.get("rh_t"), t.get("rh_f"), t.get("rh_ok")));
    rows.add(new Row("meter", t.get("mt_t"), t.get("mt_f"), t.get("mt_ok")));
    TreeSet<String> signs = new TreeSet<>();
    for (String key : t.counts().keySet()) {
      if (key.startsWith("sg:")) {
        signs.add(key.substring(3, key.lastIndexOf(':')));
      }
    }
    for (String s : signs) {
      String p = "sg:" + s;
      rows.add(new Row(s, t.get(p + ":t"), t.get(p + ":f"), t.get(p + ":tp")));
    }
    return rows.stream().filter(r -> r.support() + r.found() > 0).toList();
  }
}
