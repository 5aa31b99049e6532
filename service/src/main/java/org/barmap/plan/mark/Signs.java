package org.barmap.plan.mark;

import org.barmap.plan.change.ShowChange;

/** The signs players write, in letters a page and a screen can show. */
final class Signs {
  private Signs() {}

  static String reminder(ShowChange.Remind remind) {
    String note = remind.meta().note().map(n -> ": " + n).orElse("");
    return switch (remind.what()) {
      case WATCH -> "glasses (watch)" + note;
      case CUE -> "cue" + note;
      case PUSH -> "arrow on (push)" + note;
      case PULL -> "wavy line (pull back)" + note;
      case BOW -> "arco" + note;
      case PIZZ -> "pizz." + note;
      case MUTE -> remind.meta().note().orElse("mute");
      case EXTENSION -> "ext." + note;
      case MISSED -> remind.meta().note().orElse("!");
      case TEXT -> remind.meta().note().orElse("!");
    };
  }

  /** Returns a note value given as a share of a whole note. */
  static String note(String share) {
    return switch (share) {
      case "1/1" -> "whole";
      case "3/4" -> "half.";
      case "1/2" -> "half";
      case "3/8" -> "\u2669.";
      case "1/4" -> "\u2669";
      case "3/16" -> "\u266A.";
      case "1/8" -> "\u266A";
      default -> share;
    };
  }
}
