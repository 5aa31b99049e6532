package org.barmap.edit.draft;

import java.lang.reflect.RecordComponent;
import java.util.Comparator;
import java.util.Objects;
import org.barmap.map.Bar;

/** Changes bar entries part by part. */
public final class Parts {

  /** Page, system, left to right. */
  public static final Comparator<Bar> READING_ORDER =
      Comparator.comparingInt(Bar::page)
          .thenComparingInt(Bar::system)
          .thenComparingDouble(b -> Systems.left(b.outline()));

  private Parts() {}

  /** Returns a bar in which every part that is as before is as after. */
  public static Bar merge(Bar now, Bar before, Bar after) {
    if (now.equals(before)) {
      return after;
    }
    try {
      RecordComponent[] parts = Bar.class.getRecordComponents();
      Object[] values = new Object[parts.length];
      Class<?>[] types = new Class<?>[parts.length];
      for (int i = 0; i < parts.length; i++) {
        Object is = parts[i].getAccessor().invoke(now);
        boolean asBefore = Objects.equals(is, parts[i].getAccessor().invoke(before));
        values[i] = asBefore ? parts[i].getAccessor().invoke(after) : is;
        types[i] = parts[i].getType();
      }
      return Bar.class.getConstructor(types).newInstance(values);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("a bar can always be made from its parts", e);
    }
  }
}
