package org.barmap.plan.ready;

import java.util.Locale;
import java.util.Optional;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.turn.Verdict;

/** Says a change of what the player holds in plain words. */
final class ReadyText {
  private ReadyText() {}

  static String of(
      GetReady.Kind kind,
      String to,
      boolean apart,
      Optional<Double> seconds,
      double needed,
      boolean several,
      Verdict verdict,
      boolean earlier) {
    String what = what(kind, to);
    if (apart) {
      return what + " before the number, or in its opening rest.";
    }
    String time =
        seconds
            .map(s -> String.format(Locale.ROOT, "%.1f s without notes", s))
            .orElse("nobody knows how long there is");
    String need =
        Figures.rough(needed) + " s are needed" + (several ? " for all that changes here" : "");
    return what + ": " + time + ", " + need + "." + advice(kind, to, verdict, earlier);
  }

  private static String what(GetReady.Kind kind, String to) {
    return switch (kind) {
      case INSTRUMENT -> "Take up the " + to;
      case BOW -> to.equals("pizz") ? "Bow away, pizz." : "Take up the bow";
      case MUTE ->
          to.equals("mute on") ? "Mute on" : to.equals("mute off") ? "Mute off" : "Take the " + to;
      case EXTENSION -> to.equals("extension") ? "Ready the extension" : "Close the extension";
      case RETUNE -> "Retune: " + to;
    };
  }

  private static String advice(GetReady.Kind kind, String to, Verdict verdict, boolean earlier) {
    if (verdict == Verdict.TIME) {
      return "";
    }
    if (earlier) {
      return " Prepare it in the earlier rest.";
    }
    return verdict == Verdict.UNKNOWN ? "" : withoutRest(kind, to);
  }

  /** What a player does where no rest is long enough. */
  private static String withoutRest(GetReady.Kind kind, String to) {
    return switch (kind) {
      case BOW ->
          to.equals("pizz")
              ? " Keep the bow in the hand."
              : " Pluck with the bow in the hand before it.";
      case MUTE, EXTENSION, RETUNE ->
          " No earlier rest is long enough: leave out what stands around it.";
      case INSTRUMENT -> " No earlier rest is long enough: ask the director what is left out.";
    };
  }
}
