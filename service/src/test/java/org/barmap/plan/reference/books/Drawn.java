package org.barmap.plan.reference.books;

import java.util.List;

/** One drawn bar or rest of a number that is being made. */
final class Drawn {
  final int number;
  final String label;
  final int count;

  /** Whether no repeat is around it. */
  boolean top;

  /** Whether a repeat begins with it; whether it is the end of a last ending. */
  boolean begins;

  boolean wayOut;

  /** Which stretch between signs of the form it lies in, and which repeat with all in it. */
  int block;

  int group;

  final List<Integer> ending;
  String mark = "";
  String more = "";

  Drawn(int number, String label, int count, boolean top, List<Integer> ending) {
    this.number = number;
    this.label = label;
    this.count = count;
    this.top = top;
    this.ending = ending;
  }

  String text() {
    String rest = count > 0 ? "R" + number + "*" + count : number + label;
    return (mark.isEmpty() ? "" : "(" + mark + ")") + rest + more;
  }
}
