package org.barmap.page;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.page.level.Opening;
import org.barmap.page.pixel.PageSettings;

/** Says what of a picture was not read because it belongs to a page that is not whole in it. */
final class FacingPages {

  private static final double STRIP = PageSettings.STANDARD.facing().strip();

  private FacingPages() {}

  /** Returns what to tell about the pages that are cut off, if any is. */
  static Optional<Finding> finding(String source, Opening opening) {
    List<Opening.Part> parts = opening.parts();
    if (!opening.isCut()) {
      return Optional.empty();
    }
    boolean strip = parts.stream().filter(p -> !p.whole()).allMatch(p -> p.share() <= STRIP);
    return Optional.of(
        strip
            ? Finding.ofPage(
                Severity.INFO,
                Stage.PAGE,
                0,
                "facing-page",
                source
                    + ": part of the facing page is in the picture; only the page that is whole"
                    + " was read.")
            : Finding.ofPage(
                Severity.DOUBT,
                Stage.PAGE,
                0,
                "page-cut-off",
                source
                    + ": the "
                    + (parts.get(parts.size() - 1).whole() ? "left" : "right")
                    + " page is cut off at the picture's edge and was not read; if it belongs to"
                    + " the part, photograph it whole."));
  }
}
