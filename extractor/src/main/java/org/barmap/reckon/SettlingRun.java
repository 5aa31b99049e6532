package org.barmap.reckon;

import jdk.jfr.Category;
import jdk.jfr.Description;
import jdk.jfr.Event;
import jdk.jfr.Label;
import jdk.jfr.Name;

/** One settling of a whole book, as the flight recorder notes it; costs nothing while it is off. */
@Name(SettlingRun.NAME)
@Label("Book settled again")
@Category("barmap")
@Description("Counts and numbers of a whole book worked out anew")
final class SettlingRun extends Event {

  /** What the flight recorder calls it. */
  static final String NAME = "barmap.Settling";

  /** How many entries the book has. */
  @Label("Entries")
  int entries;
}
