package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.piece.Piece;

/**
 * Signs of a number that don't go together: two of a kind where one is enough, and those that
 * nobody comes to. One of them may be misread or belong elsewhere, so the player is told which one
 * the plan goes by.
 */
final class SeveralSigns {
  private final List<Piece> pieces;
  private final List<PlanFinding> findings = new ArrayList<>();

  private SeveralSigns(List<Piece> pieces) {
    this.pieces = pieces;
  }

  /** Returns what is to be told of the signs of a number and of the jumps that were read. */
  static List<PlanFinding> doubts(List<Piece> pieces, Map<Integer, Jumps.Jump> jumps) {
    SeveralSigns signs = new SeveralSigns(pieces);
    List<Integer> at = jumps.keySet().stream().sorted().toList();
    if (at.size() > 1) {
      signs.find(
          at.get(1),
          "jump-several",
          "A second D.C. or D.S. stands here; each is followed once, as you come to it");
    }
    for (int jump : at) {
      signs.segnos(jump);
    }
    if (at.size() == 1) {
      jumps.forEach(signs::one);
    }
    return signs.findings;
  }

  private void segnos(int at) {
    if (pieces.get(at).endsWith(Navigation.DAL_SEGNO)) {
      if (starts(Navigation.SEGNO).stream().filter(s -> s <= at).count() > 1) {
        find(
            at,
            "segno-several",
            "More than one segno stands before this D.S.; it goes back to the last of them");
      }
    }
  }

  private void one(int at, Jumps.Jump jump) {
    List<Integer> toCodas = ends(Navigation.TO_CODA);
    if (jump.toCoda() >= 0) {
      if (toCodas.size() > 1) {
        find(toCodas.get(1), "to-coda-several", "A second To Coda stands here; the first counts");
      }
      List<Integer> codas = starts(Navigation.CODA);
      if (codas.size() > 1) {
        find(
            codas.get(1),
            "coda-several",
            "A second coda stands here; you go to the first behind the D.C. or D.S.");
      }
      if (jump.coda() <= at) {
        find(
            jump.coda(), "coda-before", "The coda stands before the D.C. or D.S. that leads to it");
      }
    } else if (!toCodas.isEmpty() && !starts(Navigation.CODA).isEmpty()) {
      find(
          toCodas.get(0),
          "to-coda-unmet",
          "After the D.C. or D.S. you don't come to this To Coda; you play on");
    }
    fines(at, jump);
  }

  private void fines(int at, Jumps.Jump jump) {
    List<Integer> fines = ends(Navigation.FINE);
    if (fines.isEmpty()) {
      return;
    }
    int fine = fines.get(0);
    if (fines.size() > 1) {
      find(
          fines.get(1), "fine-several", "A second Fine stands here; you end at the first you meet");
    }
    if (jump.toCoda() >= 0 && fine < jump.coda()) {
      find(
          fine,
          "fine-or-coda",
          "A Fine and a To Coda belong to one D.C. or D.S.; you go to the coda");
    } else if (fine > at && fine < pieces.size() - 1) {
      find(fine, "fine-unmet", "The bars behind this Fine are never played");
    } else if (fine < jump.target()) {
      find(fine, "fine-unmet", "After the D.S. you don't come to this Fine; you play to the end");
    }
  }

  private List<Integer> starts(Navigation sign) {
    return where(p -> p.startsWith(sign));
  }

  private List<Integer> ends(Navigation sign) {
    return where(p -> p.endsWith(sign));
  }

  private List<Integer> where(Predicate<Piece> is) {
    return IntStream.range(0, pieces.size()).filter(i -> is.test(pieces.get(i))).boxed().toList();
  }

  private void find(int piece, String code, String text) {
    findings.add(PlanFinding.form(Severity.DOUBT, pieces.get(piece).bar().id(), code, text + "."));
  }
}
