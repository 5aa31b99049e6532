package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.piece.Piece;

/** Where D.C., D.S., Fine and coda lead, and whether they can. */
final class Jumps {

  /**
   * One D.C. or D.S.
   *
   * @param target index of the piece it goes back to
   * @param toCoda index of the piece after which it goes on to the coda; -1 for none
   * @param coda index of the coda's first piece; -1 for none
   * @param fine stop at a Fine
   * @param repeats whether repeats are taken again after it, where it says so
   */
  record Jump(int target, int toCoda, int coda, boolean fine, Optional<Boolean> repeats) {}

  private static final Pattern WITHOUT_REPEATS =
      Pattern.compile(
          "(?:\\bno|\\bwithout|\\bsenza|\\bsans|\\bohne|\\bomit|\\bskip)\\s+(?:the\\s+)?(?:rep|ripetiz|r\u00e9p|wiederh)");
  private static final Pattern WITH_REPEATS =
      Pattern.compile(
          "\\brepeats?\\b|\\bwith\\s+(?:the\\s+)?rep|\\bcon\\s+(?:rep|ripetiz)|\\bavec\\s+r[e\u00e9]p|\\bmit\\s+wiederh");

  /** More jumps than this in one number are no music; the rest is passed over. */
  private static final int MOST_JUMPS = 100;

  private final List<Piece> pieces;
  private final List<PlanFinding> findings;
  private final Map<Integer, Jump> at = new HashMap<>();

  private Jumps(List<Piece> pieces, List<PlanFinding> findings) {
    this.pieces = pieces;
    this.findings = findings;
  }

  /** Returns the jumps that can be made, by the piece at whose end they stand. */
  static Map<Integer, Jump> read(List<Piece> pieces, List<PlanFinding> findings) {
    Jumps jumps = new Jumps(pieces, findings);
    int seen = 0;
    for (int i = 0; i < pieces.size(); i++) {
      if (ends(pieces.get(i), Navigation.DA_CAPO) || ends(pieces.get(i), Navigation.DAL_SEGNO)) {
        if (++seen > MOST_JUMPS) {
          jumps.find(
              i,
              "too-many-jumps",
              "More than " + MOST_JUMPS + " jumps; from here on they are passed over");
          break;
        }
        jumps.one(i);
      }
    }
    if (seen == 0) {
      jumps.lonely();
    }
    findings.addAll(SeveralSigns.doubts(pieces, jumps.at));
    return jumps.at;
  }

  /** Signs that only count after a D.C. or D.S., where none is printed. */
  private void lonely() {
    for (int i = 0; i < pieces.size(); i++) {
      boolean coda = ends(pieces.get(i), Navigation.TO_CODA);
      if (coda || (i < pieces.size() - 1 && ends(pieces.get(i), Navigation.FINE))) {
        findings.add(
            PlanFinding.form(
                Severity.DOUBT,
                pieces.get(i).bar().id(),
                coda ? "to-coda-lonely" : "fine-lonely",
                (coda ? "To Coda" : "Fine")
                    + " stands here, but no D.C. or D.S. leads back before it; you play on"));
      }
    }
  }

  /** Tells whether a sign that counts at a bar's end stands at the end of a piece. */
  static boolean ends(Piece piece, Navigation sign) {
    return piece.endsWith(sign);
  }

  /** Tells whether a sign that counts at a bar's start stands at the start of a piece. */
  static boolean starts(Piece piece, Navigation sign) {
    return piece.startsWith(sign);
  }

  private void one(int i) {
    Piece piece = pieces.get(i);
    boolean segno = ends(piece, Navigation.DAL_SEGNO);
    if (segno && ends(piece, Navigation.DA_CAPO)) {
      find(i, "jump-twice", "Both D.C. and D.S. stand here; neither is followed");
      return;
    }
    int target = segno ? lastStart(Navigation.SEGNO, i) : 0;
    if (target < 0) {
      find(i, "segno-missing", "There is no segno for this D.S. to go back to; it is passed over");
      return;
    }
    String words = words(i);
    int toCoda = -1;
    for (int k = target; k <= i; k++) {
      if (ends(pieces.get(k), Navigation.TO_CODA)) {
        toCoda = k;
        break;
      }
    }
    int coda = toCoda < 0 ? -1 : nextStart(Navigation.CODA, Math.max(toCoda, i) + 1);
    if (toCoda >= 0 && coda < 0) {
      coda = nextStart(Navigation.CODA, toCoda + 1);
    }
    if (toCoda >= 0 && coda < 0) {
      find(toCoda, "coda-missing", "To Coda stands here, but no coda follows; it is passed over");
      toCoda = -1;
    } else if (toCoda < 0 && (words.contains("coda") || codaUnused(i))) {
      find(i, "to-coda-missing", "There is a coda to go to, but no To Coda that says where from");
    }
    boolean fine = anyEnd(Navigation.FINE);
    if (words.contains("fine") && !fine) {
      find(i, "fine-missing", "Al Fine is written here, but there is no Fine to stop at");
    }
    at.put(i, new Jump(target, toCoda, coda, fine, repeats(words)));
  }

  private static Optional<Boolean> repeats(String words) {
    return WITHOUT_REPEATS.matcher(words).find()
        ? Optional.of(false)
        : WITH_REPEATS.matcher(words).find() ? Optional.of(true) : Optional.empty();
  }

  private boolean codaUnused(int jump) {
    boolean toCodaAnywhere = pieces.stream().anyMatch(p -> ends(p, Navigation.TO_CODA));
    return !toCodaAnywhere && nextStart(Navigation.CODA, 0) >= 0 && jump >= 0;
  }

  /** What stands over the entry of a piece, also where a change took the entry apart. */
  private String words(int i) {
    int first = i;
    String entry = pieces.get(i).signBar().id();
    while (first > 0 && pieces.get(first - 1).signBar().id().equals(entry)) {
      first--;
    }
    List<String> texts = new ArrayList<>();
    for (int k = first; k <= i; k++) {
      pieces.get(k).signBar().words().forEach(w -> texts.add(w.text()));
    }
    return String.join(" ", texts).toLowerCase(Locale.ROOT);
  }

  private int lastStart(Navigation sign, int upTo) {
    for (int k = upTo; k >= 0; k--) {
      if (starts(pieces.get(k), sign)) {
        return k;
      }
    }
    return -1;
  }

  private int nextStart(Navigation sign, int from) {
    for (int k = from; k < pieces.size(); k++) {
      if (starts(pieces.get(k), sign)) {
        return k;
      }
    }
    return -1;
  }

  private boolean anyEnd(Navigation sign) {
    return pieces.stream().anyMatch(p -> ends(p, sign));
  }

  private void find(int piece, String code, String text) {
    findings.add(PlanFinding.form(Severity.ERROR, pieces.get(piece).bar().id(), code, text));
  }
}
