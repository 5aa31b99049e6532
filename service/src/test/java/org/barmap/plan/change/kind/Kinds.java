package org.barmap.plan.change.kind;

import java.util.Arrays;
import java.util.stream.Stream;

/** All kinds of change, for tests that must miss none. */
public final class Kinds {
  private Kinds() {}

  /** Returns their records. */
  public static Stream<Class<?>> all() {
    return under(ShowChange.class);
  }

  private static Stream<Class<?>> under(Class<?> type) {
    return type.isSealed()
        ? Arrays.stream(type.getPermittedSubclasses()).flatMap(Kinds::under)
        : Stream.of(type);
  }
}
