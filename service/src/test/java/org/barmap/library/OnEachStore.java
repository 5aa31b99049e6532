package org.barmap.library;

import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;

/** A test that holds for every kind of store and runs on each. */
@ParameterizedClass
@EnumSource(Stores.class)
abstract class OnEachStore extends WithLibrary {

  @Parameter Stores kind = Stores.SQLITE;

  @Override
  final Stores store() {
    return kind;
  }
}
