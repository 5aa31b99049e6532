package org.barmap.score;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.OptionalDouble;

/** The accuracy figures of a tally; a figure without anything to judge is absent. */
public final class Figures {
  private static final String[] OPERATIONS = {"system", "bar", "count", "meter", "reh", "number"};
  private final Map<String, Double> values = new LinkedHashMap<>();

  private Figures() {}

  /** Computes the figures; rates are 0 to 1. */
  public static Figures of(Tally t) {
    Figures m = new Figures();
    m.put("files", t.get("files"));
    m.put("pages", t.get("pages"));
    m.put("bars", t.get("be_t"));
    m.rate("sys_recall", t.get("sys_tp"), t.get("sys_t"));
    m.rate("sys_precision", t.get("sys_tp"), t.get("sys_f"));
    m.rate("barline_recall", t.get("bl_tp"), t.get("bl_t"));
    m.rate("barline_precision", t.get("bl_tp"), t.get("bl_f"));
    m.rate("barline_f1", 2 * t.get("bl_tp"), t.get("bl_t") + t.get("bl_f"));
    m.rate("bar_f1", 2 * t.get("be_tp"), t.get("be_t") + t.get("be_f"));
    m.rate("sys_exact_bars", t.get("sysn_ok"), t.get("sys_t"));
    m.rate("multirest_exact", t.get("mr_ok"), t.get("mr_t"));
    m.rate("multirest_seen", t.get("mr_det"), t.get("mr_t"));
    m.put("multirest_n", t.get("mr_t"));
    m.put("multirest_false", t.get("mr_false"));
    m.rate("rehearsal_recall", t.get("rh_ok"), t.get("rh_t"));
    m.rate("rehearsal_precision", t.get("rh_ok"), t.get("rh_f"));
    m.rate("rehearsal_f1", 2 * t.get("rh_ok"), t.get("rh_t") + t.get("rh_f"));
    m.put("rehearsal_n", t.get("rh_t"));
    m.rate("rehearsal_enclosure", t.get("rh_enc"), t.get("rh_ok"));
    m.rate("meter_recall", t.get("mt_ok"), t.get("mt_t"));
    m.rate("meter_precision", t.get("mt_ok"), t.get("mt_f"));
    m.rate("meter_f1", 2 * t.get("mt_ok"), t.get("mt_t") + t.get("mt_f"));
    m.put("meter_n", t.get("mt_t"));
    m.rate("endtype", t.get("et_ok"), t.get("et_n"));
    m.rate("endtype_special_recall", t.get("ets_ok"), t.get("ets_n"));
    m.rate("endtype_special_precision", t.get("ets_ok"), t.get("ets_f"));
    m.rate("content", t.get("ct_ok"), t.get("ct_n"));
    for (String c : new String[] {"music", "rest", "bar-repeat", "multi-rest"}) {
      String prefix = "ct:" + c + ">";
      long n =
          t.counts().entrySet().stream()
              .filter(e -> e.getKey().startsWith(prefix))
              .mapToLong(Map.Entry::getValue)
              .sum();
      m.rate("content_" + c, t.get(prefix + c), n);
    }
    m.rate("number", t.get("num_ok"), t.get("num_n"));
    m.operations(t);
    m.calibration(t);
    return m;
  }

  private void operations(Tally t) {
    long sum = 0;
    for (String o : OPERATIONS) {
      put("op_" + o, t.get("op_" + o));
      sum += t.get("op_" + o);
    }
    put("op_type", t.get("op_type"));
    rate("corrections_per_page", sum, t.get("pages"));
    rate("corrections_with_types_per_page", sum + t.get("op_type"), t.get("pages"));
  }

  private void calibration(Tally t) {
    long n = 0;
    double off = 0;
    for (int k = 0; k < Tally.BINS; k++) {
      n += t.binN(k);
      off += Math.abs(t.binConfidence(k) - t.binRight(k));
    }
    put("conf_n", n);
    put("sure_wrong", t.get("sure_wrong"));
    if (n > 0) {
      values.put("ece", off / n);
    }
  }

  private void put(String key, long value) {
    values.put(key, (double) value);
  }

  private void rate(String key, long part, long whole) {
    if (whole != 0) {
      values.put(key, (double) part / whole);
    }
  }

  /** Returns a figure by name; empty where there was nothing to judge. */
  public OptionalDouble get(String key) {
    Double v = values.get(key);
    return v == null ? OptionalDouble.empty() : OptionalDouble.of(v);
  }

  /** Returns all figures by name, in reading order. */
  public Map<String, Double> values() {
    return java.util.Collections.unmodifiableMap(values);
  }
}
