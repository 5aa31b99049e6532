package org.barmap.web.feed;

import java.util.Map;
import java.util.TreeMap;
import org.barmap.map.json.BarMapSchema;
import org.barmap.pack.PackWriter;
import org.barmap.plan.PlanSchema;
import org.barmap.plan.change.ChangesSchema;

/** The schemas of the formats that go out and come in, JSON Schema 2020-12, by their addresses. */
public final class Published {

  private static final Map<String, String> SCHEMAS =
      Map.of(
          "/schemas/barmap-1.json", BarMapSchema.text(),
          "/schemas/changes-1.json", ChangesSchema.text(),
          "/schemas/barplan-1.json", PlanSchema.text(),
          "/schemas/barpack-1.json", PackWriter.schema());

  private Published() {}

  /** Returns the text of each schema by its address, which stays the same for ever. */
  public static Map<String, String> schemas() {
    return new TreeMap<>(SCHEMAS);
  }
}
