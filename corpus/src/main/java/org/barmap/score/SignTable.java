package org.barmap.score;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/** How many of every kind of sign are printed, were read, and are right. */
public final class SignTable {

  /**
   * One kind of sign.
   *
   * @param sign its name
   * @param printed how many the truth has
   * @param found how many were read
   * @param right how many of these are right
   */
  public record Row(String sign, long printed, long found, long right) {

    /** Returns which share of what is printed was read rightly (recall); 0 of nothing. */
    public double ofPrinted() {
      return printed == 0 ? 0 : (double) right / printed;
    }

    /** Returns which share of what was read is right (precision); 0 of nothing. */
    public double ofRead() {
      return found == 0 ? 0 : (double) right / found;
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
    return rows.stream().filter(r -> r.printed() + r.found() > 0).toList();
  }
}
